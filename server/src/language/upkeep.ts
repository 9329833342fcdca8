import { MessageType, RAL, ShowMessageNotification } from 'vscode-languageserver';
import { Progress } from './progress.ts';
import type { Session } from './session.ts';

/** Work that no author waits for begins when nothing was typed for so long, ms. */
const IDLE = 150;
/** Fewer documents than these are looked at before anybody could read that they are. */
const LONG_WORK = 50;

/** Keeps what the client shows in step with documents and files: at once for what is open, idly for the rest. */
export class Upkeep {
  readonly #session: Session;
  #announced = 0;
  #idle: { dispose(): void } | undefined;
  #isWorking = false;

  constructor(session: Session) {
    this.#session = session;
  }

  /** An open document changed, and its author waits for an answer. */
  changed(path: string): void {
    this.#session.workspace.touch(path);
    this.#session.publisher.owe(path);
    this.announce();
  }

  /**
   * Takes changes in once the messages that are here already are read: a burst of keys costs one check, and a single key
   * none of the author's time. The queue hands out one message a turn, so whoever is not the last has a successor.
   */
  announce(): void {
    const own = ++this.#announced;
    const { timer } = RAL();
    timer.setImmediate(() => {
      timer.setImmediate(() => {
        if (own === this.#announced) void this.#settleAndPublish();
      });
    });
  }

  /** Looks for documents that no editor holds, and checks them while nothing else is to be done. */
  async findClosed(): Promise<void> {
    await pause();
    await this.#session.workspace.closed.find();
    this.#scheduleIdle();
  }

  async #settleAndPublish(): Promise<void> {
    const { workspace, publisher } = this.#session;
    await workspace.settle();
    // Whatever came meanwhile has an announcement of its own; its results will be newer.
    if (workspace.isSettled) publisher.publishOpen();
    this.#scheduleIdle();
  }

  #scheduleIdle(): void {
    this.#idle?.dispose();
    if (this.#isWorking || !this.#session.workspace.closed.hasWork) return;
    this.#idle = RAL().timer.setTimeout(() => void this.#workIdly(), IDLE);
  }

  async #workIdly(): Promise<void> {
    this.#isWorking = true;
    const progress = this.#beginProgress();
    const news = await this.#workUntilDisturbed(progress).finally(() => {
      this.#isWorking = false;
      progress?.done();
    });
    const { workspace, publisher } = this.#session;
    await workspace.settle();
    // What is open is compared with what was found.
    publisher.publishOpen();
    if (news.size > 0) publisher.publishClosed([...news]);
    if (progress?.isStopped) this.#tellOfRest();
    else this.#scheduleIdle();
  }

  /** Works on until all is done, something is typed, or the user stops it; gives the documents that were looked at. */
  async #workUntilDisturbed(progress: Progress | undefined): Promise<ReadonlySet<string>> {
    const { closed } = this.#session.workspace;
    const begun = this.#announced;
    const news = new Set<string>();
    const whole = closed.workLeft;
    while (closed.hasWork && begun === this.#announced && !progress?.isStopped) {
      for (const path of await closed.workSlice(Date.now)) news.add(path);
      progress?.report(1 - closed.workLeft / whole, `${closed.workLeft} left`);
      await pause();
    }
    return news;
  }

  #beginProgress(): Progress | undefined {
    const { client, connection, workspace } = this.#session;
    const isLong = client.showsProgress && workspace.closed.workLeft >= LONG_WORK;
    return isLong ? new Progress(connection, 'Setproof checks the documents of the workspace') : undefined;
  }

  /** What was not looked at must not look like what was found to be in order. */
  #tellOfRest(): void {
    const { connection, workspace } = this.#session;
    const left = workspace.closed.workLeft;
    const message = `Setproof was stopped with ${left} of the closed documents not checked. It goes on with the next change.`;
    void connection.sendNotification(ShowMessageNotification.type, { type: MessageType.Info, message });
  }
}

function pause(): Promise<void> {
  return new Promise((resolve) => RAL().timer.setImmediate(resolve));
}

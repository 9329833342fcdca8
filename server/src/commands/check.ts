import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { LedgerWriter, type Severity } from '../engine/index.ts';
import { type FoundFiles, findFiles } from '../host/node/find.ts';
import { absolutePath } from '../host/node/paths.ts';
import type { Trouble } from '../host/node/walk.ts';
import type { Run } from '../render/report.ts';
import { counted } from '../render/text/lines.ts';
import type { AcceptedEntry } from './checking/accepted.ts';
import { readAccepted, writeAccepted } from './checking/accepted-file.ts';
import { batchesOf, type Crew, crewOfOne, inOrder } from './checking/crew.ts';
import type { Inspection, Survey } from './checking/inspector.ts';
import type { Setup } from './checking/setup.ts';
import { settledEntry, Tally } from './checking/tally.ts';
import { chooseDocuments, isInShard, shardOf } from './choose.ts';
import { Progress } from './progress.ts';
import { type Asked, askedReports, openReports, type ReportArguments, type Reports } from './reports.ts';
import { type Scope, type ScopeArguments, scopeOf } from './scope.ts';
import { EXIT, Refusal, running, type Surroundings, say } from './surroundings.ts';

export interface CheckArguments extends ScopeArguments, ReportArguments {
  /** Files and folders; the working directory without any. */
  readonly paths: readonly string[];
  /** Findings from this severity on make the exit status 1. */
  readonly failOn?: Severity | undefined;
  /** A git revision: only documents changed since then, and those that depend on what changed. */
  readonly changedSince?: string | undefined;
  /** `i/n`: only this part of the documents. */
  readonly shard?: string | undefined;
  /** How many workers share the work. */
  readonly jobs?: string | undefined;
  /** A list of findings that are accepted for now. */
  readonly accepted?: string | undefined;
  /** Writes that list, with what would count. */
  readonly writeAccepted?: string | undefined;
}

/**
 * `setproof check`: 0 without findings from `failOn` on, 1 with one, 2 if not all could be checked, 130 where it was
 * interrupted.
 */
export function check(args: CheckArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const gate = new Gate(args, surroundings);
    try {
      return await gate.run();
    } catch (error) {
      if (!(error instanceof Interruption)) throw error;
      gate.progress.clear();
      say(surroundings, 'Interrupted; no report was written.');
      return EXIT.interrupted;
    }
  });
}

/** What ends a run that somebody interrupts. */
class Interruption extends Error {}

/** Files of a batch: enough to be worth sending, few enough to end soon. */
const BATCH = 16;
/** Starting a worker costs as much as some hundred files. */
const WORTH_WORKERS = 1000;
const FILES_A_WORKER = 500;
const MOST_JOBS = 256;

/** What of the documents is asked for. */
interface Choice {
  readonly jobs: number | undefined;
  readonly isInPart: (path: string) => boolean;
  readonly mayDiffer: (survey: Survey) => boolean;
}

/** One run of `check`. */
class Gate {
  readonly progress: Progress;
  readonly #args: CheckArguments;
  readonly #surroundings: Surroundings;
  readonly #scope: Scope;
  readonly #asked: readonly Asked[];
  readonly #setup: Setup;
  /** What is to be looked through, as it was named, and absolute. */
  readonly #names: readonly string[];
  readonly #paths: readonly string[];
  /** What could not be looked at, in sentences, each said once. */
  readonly #troubles = new Set<string>();

  /** @throws Refusal for arguments that cannot be used */
  constructor(args: CheckArguments, surroundings: Surroundings) {
    this.#args = args;
    this.#surroundings = surroundings;
    this.#scope = scopeOf(args, surroundings);
    this.#asked = askedReports(args, surroundings);
    this.#setup = setupOf(args, this.#scope, this.#asked, surroundings);
    this.#names = args.paths.length === 0 ? ['.'] : args.paths;
    this.#paths = this.#names.map((name) => absolutePath(surroundings.cwd, name));
    this.progress = new Progress(surroundings.stderr);
  }

  async run(): Promise<number> {
    const choice = await this.#choice();
    const found = findFiles(this.#paths, this.#scope.roots, this.#scope.options.policy);
    for (const { path } of found.files) this.#scope.admit(path);
    for (const trouble of found.troubles) this.#tell(trouble);
    const reports = await openReports(this.#asked, this.#setup, this.#scope.nameOf, this.#surroundings);
    const jobs = Math.min(choice.jobs ?? defaultJobs(found), batchCount(found));
    const outcome = await reports.writing(() =>
      this.#withCrew(jobs, async (crew) => {
        const surveys = await this.#survey(found, crew);
        return this.#outcome(await this.#checkChosen(found, surveys, choice, crew, reports));
      }),
    );
    return outcome.status;
  }

  /** What of the documents is asked for, and of how many workers. @throws Refusal for what makes no sense */
  async #choice(): Promise<Choice> {
    const { shard, jobs, changedSince } = this.#args;
    const part = shard === undefined ? undefined : shardOf(shard);
    return {
      jobs: jobs === undefined ? undefined : jobsOf(jobs),
      isInPart: (path) => part === undefined || isInShard(path, part, this.#scope.roots),
      mayDiffer: changedSince === undefined ? () => true : await this.#changesSince(changedSince),
    };
  }

  async #changesSince(revision: string): Promise<Choice['mayDiffer']> {
    const { changesSince } = await import('./changes-since.ts');
    return changesSince(revision, this.#paths);
  }

  async #checkChosen(
    { files }: FoundFiles,
    surveys: readonly Survey[],
    { isInPart, mayDiffer }: Choice,
    crew: Crew,
    reports: Reports,
  ): Promise<Tally> {
    const { documents, strangers, ignored } = chooseDocuments(files, surveys);
    this.#tellStrangers(strangers);
    if (documents.length === 0) this.#tellNothing();
    const chosen = documents.filter((each) => isInPart(each.path) && mayDiffer(each)).map(({ path }) => path);
    const tally = new Tally(ignored.filter(isInPart).length);
    await this.#check(chosen, crew, tally, reports);
    if (this.#args.changedSince !== undefined && documents.length > 0)
      this.#tellChosen(chosen.length, documents.length);
    return tally;
  }

  async #withCrew<T>(jobs: number, work: (crew: Crew) => Promise<T>): Promise<T> {
    const crew = await this.#crewOf(jobs);
    try {
      return await work(crew);
    } finally {
      await crew.end();
    }
  }

  async #crewOf(jobs: number): Promise<Crew> {
    const { worker } = this.#surroundings;
    if (jobs <= 1 || worker === undefined) return crewOfOne(this.#setup, this.#surroundings);
    const { crewOfWorkers } = await import('./checking/workers.ts');
    return crewOfWorkers(jobs, worker, this.#setup);
  }

  /** Reads all files once, and lets the crew know which installations there are. */
  async #survey({ files }: FoundFiles, crew: Crew): Promise<readonly Survey[]> {
    const fleet = new LedgerWriter();
    const surveys: Survey[] = [];
    this.progress.begin('read', files.length);
    const batches = batchesOf(
      files.map(({ path }) => path),
      BATCH,
    );
    for await (const batch of inOrder(batches, crew.width, (paths) => crew.survey(paths))) {
      this.#heedInterruption();
      for (const survey of batch) {
        if (survey.keys !== undefined) fleet.add(survey.path, survey.keys);
        for (const trouble of survey.troubles) this.#tell(trouble);
        surveys.push({ ...survey, keys: undefined });
      }
      this.progress.step(batch.length);
    }
    crew.meet(fleet.finish());
    return surveys;
  }

  async #check(paths: readonly string[], crew: Crew, tally: Tally, reports: Reports): Promise<void> {
    this.progress.begin('checked', paths.length);
    for await (const inspection of inOrder(batchesOf(paths, BATCH), crew.width, (batch) => crew.check(batch))) {
      this.#heedInterruption();
      this.#take(inspection, tally, reports);
      this.progress.step(inspection.files.length);
      await this.#surroundings.drained?.();
    }
    this.progress.clear();
  }

  #take({ files, troubles }: Inspection, tally: Tally, reports: Reports): void {
    for (const trouble of troubles) this.#tell(trouble);
    for (const file of files) {
      if (typeof file.failed === 'string') {
        this.#say(`Setproof failed itself on '${file.path}' (${file.failed}). Please report it with this file.`);
      }
      tally.add(file);
      reports.write(file.pieces);
    }
  }

  #outcome(tally: Tally): { readonly run: Run; readonly status: number } {
    const entries = this.#setup.accepted;
    const isGone = (path: string) => !existsSync(path);
    const settled = tally.settled(entries, isGone).map((entry) => settledEntry(entry, this.#scope.nameOf));
    const { writeAccepted: list } = this.#args;
    if (list !== undefined) this.#writeAccepted(list, tally.renewed(entries, isGone));
    const counts = tally.hasFindings && list === undefined;
    const hasFailed = tally.hasFailed || this.#troubles.size > 0;
    return {
      run: { summary: tally.summary, notRun: tally.notRun, settled, troubles: [...this.#troubles] },
      status: hasFailed ? EXIT.failed : counts ? EXIT.findings : EXIT.done,
    };
  }

  #writeAccepted(name: string, entries: readonly AcceptedEntry[]): void {
    writeAccepted(name, entries, this.#surroundings);
    say(this.#surroundings, `'${name}' now accepts ${counted(entries.length, 'finding')}.`);
  }

  #tell({ path, reason }: Trouble): void {
    this.#say(`'${this.#scope.nameOf(path)}' was not checked: ${reason}.`);
  }

  #tellStrangers(paths: readonly string[]): void {
    for (const path of paths) {
      const name = this.#scope.nameOf(path);
      this.#say(`'${name}' is no document of Setproof: it has no key 'document' that says what it is.`);
    }
  }

  #tellNothing(): void {
    if (this.#troubles.size > 0) return;
    this.#say(`There is no document of Setproof in ${this.#names.map((name) => `'${name}'`).join(', ')}.`);
  }

  #tellChosen(chosen: number, all: number): void {
    const { changedSince } = this.#args;
    say(this.#surroundings, `${chosen} of ${counted(all, 'document')} may differ since '${changedSince}'.`);
  }

  /** What keeps the run from having looked at everything. */
  #say(sentence: string): void {
    if (this.#troubles.has(sentence)) return;
    this.#troubles.add(sentence);
    this.progress.clear();
    say(this.#surroundings, sentence);
  }

  #heedInterruption(): void {
    if (this.#surroundings.interrupted?.aborted) throw new Interruption();
  }
}

function setupOf(args: CheckArguments, scope: Scope, asked: readonly Asked[], surroundings: Surroundings): Setup {
  const { root, policy, show, failOn, accepted } = args;
  return {
    cwd: surroundings.cwd,
    scope: { root, policy, today: scope.options.today },
    reports: asked.map(({ form }) => form),
    show: show ?? [],
    failOn: failOn ?? 'error',
    accepted: accepted === undefined ? [] : readAccepted(accepted, surroundings),
    version: surroundings.version,
  };
}

function batchCount({ files }: FoundFiles): number {
  return Math.ceil(files.length / BATCH);
}

function defaultJobs({ files }: FoundFiles): number {
  if (files.length < WORTH_WORKERS) return 1;
  return Math.min(availableParallelism(), Math.floor(files.length / FILES_A_WORKER));
}

/** @throws Refusal for what is no number of workers */
function jobsOf(text: string): number {
  const jobs = /^\d{1,3}$/.test(text) ? Number(text) : 0;
  if (jobs >= 1 && jobs <= MOST_JOBS) return jobs;
  throw new Refusal(`The number of jobs is a whole number from 1 to ${MOST_JOBS}, not '${text}'.`);
}

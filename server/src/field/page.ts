import { type Entry, isComplete, progressOf, shutBy } from '../engine/checklist/entry.ts';
import { temperatureIn } from '../engine/checklist/reading-number.ts';
import { readingsText, readReadings } from '../engine/checklist/readings-document.ts';
import type { Stage, Step } from '../engine/checklist/step.ts';
import { now } from './clock.ts';
import type { PageData } from './main.ts';
import { merge } from './merge.ts';
import { StepView } from './step-view.ts';
import { type Kept, Store } from './store.ts';

/** Makes the page live: shows what was kept, and keeps what is typed. */
export function startPage(data: PageData): void {
  new FieldPage(data).start();
}

const NOT_KEPT =
  'This device keeps nothing: storage is off or full. What you type is lost when the page is closed. Save often, or open the page in another browser.';

class FieldPage {
  readonly #data: PageData;
  readonly #store: Store;
  readonly #views: ReadonlyMap<string, StepView>;
  readonly #stageOf: ReadonlyMap<string, Stage>;
  #entries = new Map<string, Entry>();
  /** Steps at which something was entered since the page was opened. */
  readonly #typed = new Set<string>();
  /** The step that was last looked at. */
  #at: Step | undefined;

  constructor(data: PageData) {
    this.#data = data;
    this.#store = new Store(data.fingerprint);
    this.#stageOf = new Map(data.stages.flatMap((stage) => stage.steps.map((step) => [step.id, stage] as const)));
    this.#views = new Map(
      data.stages
        .flatMap(({ steps }) => steps)
        .flatMap((step) => {
          const root = document.getElementById(step.id);
          return root instanceof HTMLFieldSetElement ? [[step.id, new StepView(step, root)] as const] : [];
        }),
    );
  }

  start(): void {
    this.#adopt(this.#store.read());
    for (const view of this.#views.values()) this.#listen(view);
    this.#who.addEventListener('input', () => this.#keep());
    button('next').addEventListener('click', () => this.#goToNext());
    button('save').addEventListener('click', () => this.#save());
    button('load').addEventListener('click', () => this.#file.click());
    button('clear').addEventListener('click', () => this.#clear());
    this.#file.addEventListener('change', () => void this.#load());
    window.addEventListener('storage', (event) => this.#followOtherTab(event));
    this.#keep();
    this.#showAll();
    void this.#store.readLater().then((later) => this.#catchUp(later));
  }

  #adopt(kept: Kept | undefined): void {
    this.#entries = new Map(kept?.entries);
    this.#who.value = kept?.who ?? '';
  }

  /** After a dead battery the database knows more than the storage did; what was typed since the start is the latest. */
  #catchUp(later: Kept | undefined): void {
    if (later !== undefined) {
      const typed = [...this.#entries].filter(([id]) => this.#typed.has(id));
      this.#adopt({ ...later, entries: new Map([...later.entries, ...typed]) });
      this.#showAll();
    }
    this.#keep(later?.count);
  }

  get #who(): HTMLInputElement {
    return input('who');
  }

  get #file(): HTMLInputElement {
    return input('file');
  }

  get #steps(): readonly Step[] {
    return this.#data.stages.flatMap(({ steps }) => steps);
  }

  #listen(view: StepView): void {
    const { id, planned } = view.step;
    view.root.addEventListener('input', (event) => {
      // A name at a hold point is no signature before it is signed.
      if (view.step.kind !== 'hold') this.#take(view, event.target !== view.unit && !isDetail(event.target));
    });
    view.root.addEventListener('focusin', () => {
      this.#at = view.step;
    });
    view.button('sign')?.addEventListener('click', () => this.#sign(view));
    view.button('withdraw')?.addEventListener('click', () => this.#withdraw(view));
    view.button('planned')?.addEventListener('click', () => {
      const value = typeof planned === 'boolean' ? (planned ? 'yes' : 'no') : String(planned);
      this.#put(id, { ...this.#entries.get(id), values: [value], ...this.#stamp() });
      view.show(this.#entries.get(id) ?? {});
      this.#refresh(view);
    });
  }

  /** The next step behind the last one that is neither done nor shut; from the end it goes on at the beginning. */
  #goToNext(): void {
    const from = this.#at === undefined ? 0 : this.#steps.indexOf(this.#at) + 1;
    const order = [...this.#steps.slice(from), ...this.#steps.slice(0, from)];
    const next = order.find((step) => !isComplete(step, this.#entries.get(step.id)) && this.#isOpen(step.id));
    const view = next === undefined ? undefined : this.#views.get(next.id);
    if (view === undefined) tell('Nothing is open.');
    view?.root.scrollIntoView();
    view?.controls[0]?.focus({ preventScroll: true });
  }

  #isOpen(id: string): boolean {
    return this.#views.get(id)?.root.disabled === false;
  }

  /** Who and when, for an entry that is made now. */
  #stamp(): Entry {
    const by = this.#who.value.trim();
    return { at: now(), ...(by === '' ? {} : { by }) };
  }

  /** Takes what was just typed; the time is that of the entry, not of a note to it. */
  #take(view: StepView, isStamped: boolean): void {
    const typed = view.read();
    const hasEntry = typed.done === true || typed.values !== undefined;
    const stamp = hasEntry ? this.#stamp() : { at: undefined, by: undefined };
    this.#put(view.step.id, isStamped ? { ...typed, ...stamp } : typed);
    if (isStamped) this.#showStamp(view);
    this.#refresh(view);
  }

  #showStamp(view: StepView): void {
    const entry = this.#entries.get(view.step.id) ?? {};
    for (const control of view.controls) {
      if (control.dataset.part === 'at') control.value = entry.at ?? '';
      if (control.dataset.part === 'by') control.value = entry.by ?? '';
    }
  }

  #put(id: string, entry: Entry): void {
    this.#typed.add(id);
    if (isBlank(entry)) this.#entries.delete(id);
    else this.#entries.set(id, entry);
    this.#keep();
  }

  #keep(known?: number): void {
    const isKept = this.#store.write({ who: this.#who.value, entries: this.#entries }, known);
    const warning = element('warning');
    warning.hidden = isKept;
    warning.textContent = isKept ? '' : NOT_KEPT;
  }

  #sign(view: StepView): void {
    const name = view.read().by?.trim() ?? '';
    if (name === '') {
      tell('Enter the name of the person who signs, then sign.');
      view.controls[0]?.focus();
      return;
    }
    const open = this.#openBefore(view.step);
    if (open !== '' && !confirm(`${open} Sign all the same?`)) return;
    this.#put(view.step.id, { by: name, at: now() });
    view.show(this.#entries.get(view.step.id) ?? {});
    this.#refreshAll();
  }

  /** What a person who signs should know of the steps before the signature. */
  #openBefore(hold: Step): string {
    const steps = this.#stageOf.get(hold.id)?.steps ?? [];
    const before = steps.slice(0, steps.indexOf(hold));
    const open = before.filter((step) => !isComplete(step, this.#entries.get(step.id))).length;
    const wrong = before.filter(({ id }) => this.#isWrong(id)).length;
    const said = [
      ...(open === 0 ? [] : [`${counted(open, 'step')} before this signature not done.`]),
      ...(wrong === 0 ? [] : [`${counted(wrong, 'step')} outside what is allowed or not readable.`]),
    ];
    return said.join(' ');
  }

  #withdraw(view: StepView): void {
    if (!confirm('Withdraw this signature? The steps behind it are shut again.')) return;
    this.#put(view.step.id, {});
    view.show({});
    this.#refreshAll();
  }

  #isWrong(id: string): boolean {
    return this.#views.get(id)?.judge(this.#entries.get(id) ?? {}, this.#temperatureFor(id)) ?? false;
  }

  /** The temperature, degC, of the item at which a step was read, if somebody has entered it. */
  #temperatureFor(id: string): number | undefined {
    const at = this.#views.get(id)?.step.temperatureStep;
    if (at === undefined) return undefined;
    return temperatureIn(this.#entries.get(at)?.values?.[0] ?? '', this.#views.get(at)?.step.unit);
  }

  /** After one entry: its own verdict, those that rest on it, and the count. */
  #refresh(view: StepView): void {
    this.#isWrong(view.step.id);
    for (const each of this.#views.values()) {
      if (each.step.temperatureStep === view.step.id) this.#isWrong(each.step.id);
    }
    this.#showProgress();
  }

  #refreshAll(): void {
    for (const [id, view] of this.#views) {
      this.#isWrong(id);
      view.shut(shutBy(this.#stageOf.get(id)?.steps ?? [], id, this.#entries));
    }
    this.#showProgress();
  }

  #showAll(): void {
    for (const [id, view] of this.#views) view.show(this.#entries.get(id) ?? {});
    this.#refreshAll();
  }

  #showProgress(): void {
    const { done, steps, openHolds } = progressOf(this.#steps, this.#entries);
    const wrong = document.querySelectorAll('[data-verdict="outside"], [data-verdict="unreadable"]').length;
    const words = [
      `${done} of ${steps} done`,
      `${counted(openHolds, 'hold').replace(/ (is|are)$/, '')} open`,
      ...(wrong === 0 ? [] : [`${wrong} outside what is allowed or not readable`]),
    ];
    element('progress').textContent = words.join(', ');
  }

  #save(): void {
    const text = readingsText(this.#data, this.#entries);
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([text], { type: 'application/yaml' }));
    link.download = `readings-${fileName(this.#data.well)}-${now().slice(0, 10)}.yaml`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    tell(`Saved as ${link.download}. Send this file back.`);
  }

  async #load(): Promise<void> {
    const [file] = this.#file.files ?? [];
    if (file === undefined) return;
    const text = await file.text();
    // The same file may be loaded again.
    this.#file.value = '';
    const read = readReadings(text, this.#data);
    if ('refused' in read) {
      tell(`'${file.name}' is not loaded. ${read.refused}`);
      return;
    }
    const isOther = read.fingerprint !== this.#data.fingerprint;
    if (isOther && !confirm(`'${file.name}' belongs to another state of the installation. Load it all the same?`))
      return;
    const { entries, taken, kept } = merge(this.#entries, read.entries);
    this.#entries = entries;
    this.#keep();
    this.#showAll();
    tell(`'${file.name}': ${loaded(taken, kept, read.unknown)}`);
  }

  #clear(): void {
    if (!confirm('Clear all entries on this device? What is not saved is lost.')) return;
    this.#entries = new Map();
    this.#keep();
    this.#showAll();
    tell('All entries are cleared.');
  }

  #followOtherTab(event: StorageEvent): void {
    if (event.key !== this.#store.key) return;
    this.#entries = new Map(this.#store.follow(event.newValue)?.entries);
    this.#showAll();
  }
}

function loaded(taken: number, kept: readonly string[], unknown: readonly string[]): string {
  const parts = [
    `${taken} entries taken over.`,
    ...(kept.length === 0
      ? []
      : [`${kept.length} stay as they are here, being later or without a time: ${kept.join(', ')}.`]),
    ...(unknown.length === 0 ? [] : [`Not on this checklist, and left out: ${unknown.join(', ')}.`]),
  ];
  return parts.join(' ');
}

function isBlank({ done, values, by, at, instrument, note }: Entry): boolean {
  return done !== true && values === undefined && [by, at, instrument, note].every((text) => (text ?? '') === '');
}

/** Note, instrument, time and name go with an entry and do not stamp it. */
function isDetail(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && !['done', 'value'].includes(target.dataset.part ?? '');
}

function counted(count: number, noun: string): string {
  return count === 1 ? `1 ${noun} is` : `${count} ${noun}s are`;
}

function fileName(well: string): string {
  return (well.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? ['well']).join('-').slice(0, 40);
}

function tell(words: string): void {
  element('message').textContent = words;
}

function element(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no '${id}'`);
  return found;
}

function input(id: string): HTMLInputElement {
  return element(id) as HTMLInputElement;
}

function button(id: string): HTMLButtonElement {
  return element(id) as HTMLButtonElement;
}

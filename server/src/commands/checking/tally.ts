import { compareText } from '../../engine/index.ts';
import { NOTHING, type NotRun, type Settled, type Summary, together } from '../../render/report.ts';
import type { AcceptedEntry } from './accepted.ts';
import type { Inspected } from './inspector.ts';

/** Adds up what the files of a run come to; small, however many they are. */
export class Tally {
  #summary: Summary;
  readonly #notRun = new Map<string, { files: number; readonly path: string; readonly missing: readonly string[] }>();
  readonly #met = new Set<number>();
  readonly #checked = new Set<string>();
  readonly acceptable: AcceptedEntry[] = [];
  hasFindings = false;
  hasFailed = false;

  constructor(ignored: number) {
    this.#summary = { ...NOTHING, ignored };
  }

  add({ path, summary, notRun, hasFindings, failed, met, acceptable }: Inspected): void {
    this.#summary = together(this.#summary, summary);
    this.hasFindings ||= hasFindings;
    this.hasFailed ||= failed !== false;
    this.#checked.add(path);
    for (const [check, missing] of notRun) {
      const before = this.#notRun.get(check);
      if (before === undefined) this.#notRun.set(check, { files: 1, path, missing });
      else before.files++;
    }
    for (const place of met) this.#met.add(place);
    for (const entry of acceptable) this.acceptable.push(entry);
  }

  get summary(): Summary {
    return this.#summary;
  }

  /** By check, in the order of their ids. */
  get notRun(): ReadonlyMap<string, NotRun> {
    return new Map([...this.#notRun].sort(([a], [b]) => compareText(a, b)));
  }

  /** Entries of which nothing is found any more: their file was checked, or is gone. */
  settled(entries: readonly AcceptedEntry[], isGone: (path: string) => boolean): readonly AcceptedEntry[] {
    return entries.filter(({ path }, place) => !this.#met.has(place) && (this.#checked.has(path) || isGone(path)));
  }

  /** The list as it would be after this run: what is accepted or counts in it, and what it did not look at. */
  renewed(entries: readonly AcceptedEntry[], isGone: (path: string) => boolean): readonly AcceptedEntry[] {
    const elsewhere = entries.filter(({ path }) => !this.#checked.has(path) && !isGone(path));
    return [...elsewhere, ...this.acceptable];
  }
}

export function settledEntry(
  { path, key, check, case: inCase }: AcceptedEntry,
  nameOf: (path: string) => string,
): Settled {
  return { file: nameOf(path), key, check, case: inCase };
}

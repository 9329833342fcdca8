import type { Entries, Entry } from '../engine/checklist/entry.ts';

export interface Merged {
  readonly entries: Map<string, Entry>;
  readonly taken: number;
  /** Steps at which an entry of this device stayed, being the later one. */
  readonly kept: readonly string[];
}

/** Brings entries of another device in. Where both have one the later counts; without a time the own one stays. */
export function merge(own: Entries, other: Entries): Merged {
  const entries = new Map(own);
  const kept: string[] = [];
  let taken = 0;
  for (const [id, entry] of other) {
    const here = own.get(id);
    if (here !== undefined && said(here) === said(entry)) continue;
    if (here === undefined || isLater(entry, here)) {
      entries.set(id, entry);
      taken++;
    } else kept.push(id);
  }
  return { entries, taken, kept };
}

function said({ done, values = [], by, note }: Entry): string {
  return JSON.stringify([done === true, values, by ?? '', note ?? '']);
}

function isLater({ at = '' }: Entry, { at: own = '' }: Entry): boolean {
  return at > own;
}

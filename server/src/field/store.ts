import type { Entry } from '../engine/checklist/entry.ts';

/** What is kept on the device. */
export interface Kept {
  readonly who: string;
  readonly entries: ReadonlyMap<string, Entry>;
}

/** Keeps the entries of one checklist on the device, under its fingerprint. */
export class Store {
  readonly key: string;

  constructor(fingerprint: string) {
    this.key = `setproof:readings:${fingerprint}`;
  }

  /** What was kept; undefined where nothing was, or where the browser keeps nothing. */
  read(): Kept | undefined {
    try {
      return keptIn(localStorage.getItem(this.key));
    } catch {
      return undefined;
    }
  }

  /** @returns false where the browser does not keep it: storage is off, full, or refused to a file */
  write({ who, entries }: Kept): boolean {
    try {
      const text = JSON.stringify({ who, entries: [...entries] });
      localStorage.setItem(this.key, text);
      return localStorage.getItem(this.key) === text;
    } catch {
      return false;
    }
  }
}

export function keptIn(text: string | null): Kept | undefined {
  if (text === null) return undefined;
  const { who, entries } = JSON.parse(text) as { who: string; entries: [string, Entry][] };
  return { who, entries: new Map(entries) };
}

import type { Entry } from '../engine/checklist/entry.ts';

/** What is kept on the device. */
export interface Kept {
  readonly who: string;
  readonly entries: ReadonlyMap<string, Entry>;
  /** Counts what was kept so far: of two records the one with more is the later. */
  readonly count: number;
}

/**
 * Keeps the entries of one checklist on the device, under its fingerprint, at two places: in the browser's storage, which
 * answers at once but which some browsers write out a minute later, and in its database, which is written out with each
 * entry and so outlives a dead battery.
 */
export class Store {
  readonly key: string;
  #count = 0;
  readonly #database: Database;

  constructor(fingerprint: string) {
    this.key = `setproof:readings:${fingerprint}`;
    this.#database = new Database(this.key);
  }

  /** What the storage kept; undefined where nothing was, or where the browser keeps nothing. */
  read(): Kept | undefined {
    try {
      return this.follow(localStorage.getItem(this.key));
    } catch {
      return undefined;
    }
  }

  /** What the database kept, if it is later than what {@link read} gave. */
  async readLater(): Promise<Kept | undefined> {
    const known = this.#count;
    const kept = keptIn(await this.#database.open());
    return kept !== undefined && kept.count > known ? kept : undefined;
  }

  /** Takes what another tab has written. */
  follow(text: string | null): Kept | undefined {
    const kept = keptIn(text);
    this.#count = Math.max(this.#count, kept?.count ?? 0);
    return kept;
  }

  /** @returns false where the browser does not keep it: storage is off, full, or refused to a file */
  write({ who, entries }: Omit<Kept, 'count'>, known = 0): boolean {
    this.#count = Math.max(this.#count, known) + 1;
    const text = JSON.stringify({ who, entries: [...entries], count: this.#count });
    this.#database.put(text);
    try {
      localStorage.setItem(this.key, text);
      return localStorage.getItem(this.key) === text;
    } catch {
      return false;
    }
  }
}

function keptIn(text: string | null | undefined): Kept | undefined {
  if (text === null || text === undefined) return undefined;
  const { who, entries, count = 0 } = JSON.parse(text) as { who: string; entries: [string, Entry][]; count?: number };
  return { who, entries: new Map(entries), count };
}

const NAME = 'setproof';
const TABLE = 'readings';

/** One text in the browser's database; where there is none, or it fails, nothing is kept there. */
class Database {
  readonly #key: string;
  #database: IDBDatabase | undefined;
  /** What is to be written next: while one text is written only the last of the others counts. */
  #next: string | undefined;
  #isWriting = false;

  constructor(key: string) {
    this.#key = key;
  }

  /** Nothing is written before what is there was read. @returns the text that was kept */
  async open(): Promise<string | undefined> {
    try {
      const asked = indexedDB.open(NAME, 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore(TABLE);
      const database = await answered(asked);
      database.onversionchange = () => database.close();
      const text = await answered<string | undefined>(
        database.transaction(TABLE).objectStore(TABLE).get(this.#key) as IDBRequest<string | undefined>,
      );
      this.#database = database;
      return text;
    } catch {
      return undefined;
    }
  }

  put(text: string): void {
    this.#next = text;
    if (!this.#isWriting) this.#writeNext();
  }

  #writeNext(): void {
    const text = this.#next;
    if (this.#database === undefined || text === undefined) return;
    this.#next = undefined;
    try {
      const writing = this.#database.transaction(TABLE, 'readwrite', { durability: 'strict' });
      writing.objectStore(TABLE).put(text, this.#key);
      this.#isWriting = true;
      const goOn = () => {
        this.#isWriting = false;
        this.#writeNext();
      };
      writing.oncomplete = goOn;
      writing.onabort = goOn;
    } catch {
      // It was closed behind our back; the storage still keeps.
      this.#database = undefined;
    }
  }
}

function answered<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

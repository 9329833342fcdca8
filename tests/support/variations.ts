import { createHash } from 'node:crypto';
import { join } from 'node:path';
import type { Document } from '../../server/src/engine/format/document.ts';
import { type CheckedFile, NONE, type NodeIndex, type Repository } from '../../server/src/engine/index.ts';
import { Installation } from '../../server/src/engine/links/installation.ts';
import { type Leaf, leavesOf, withNumber } from './leaves.ts';
import { numbersOf } from './numbers.ts';
import { checked, openProject, ROOT } from './project.ts';

const BASES = join(ROOT, 'tests/checks/base');

/** Words of which a document takes one: each is tried where another stands. */
const CHOICES = [
  ['gauge', 'absolute'],
  ['trimmed', 'volts_per_hertz'],
  ['first', 'every'],
  ['automatic', 'manual'],
  ['motor', 'drive', 'supply'],
  ['cycle_rms', 'stroke_peak'],
  ['single', 'double'],
  ['induction', 'permanent_magnet'],
  ['flat', 'round'],
  ['wye', 'delta'],
  ['none', 'sine'],
  ['star_point', 'separate_conductor'],
  ['grid', 'generator'],
  ['static', 'flowing', 'trip'],
  ['cold', 'warm'],
  ['yes', 'no'],
];

/** Entries that go to the checklist, or name something, and bear on no number. */
const FOR_SITE = /inspection|connections|revision|serial|: name$|deviations|handling|wrench|\.(alarm|delay)$/;

/** One file of a well that differs from its base in one entry. */
interface Variation {
  readonly name: string;
  readonly path: string;
  readonly text: string;
}

/** A clean well of the catalogue's examples, with the files behind it. */
export class BaseWell {
  readonly #path: string;
  readonly #repository: Repository;
  readonly #texts: Readonly<Record<string, string>>;

  constructor(lift: 'linear' | 'rotary') {
    this.#path = join(BASES, `${lift}.yaml`);
    this.#repository = openProject(this.#path, BASES);
    const used = this.#repository.known(this.#path);
    const sheets = used?.state === 'read' ? used.references.map(({ path }) => path) : [];
    const read = [this.#path, ...sheets].flatMap((path) => this.#repository.document(path) ?? []);
    this.#texts = Object.fromEntries(read.map(({ path, source }) => [path, source.text]));
  }

  /** Every entry taken out, halved, doubled, put the other way: each way to work a value out is gone once. */
  variations(): readonly Variation[] {
    return leavesOf(this.#texts)
      .filter(({ place }) => !FOR_SITE.test(place))
      .flatMap((leaf) => this.#variationsAt(leaf));
  }

  varied(variation: Variation): CheckedFile {
    return checked(this.#with(variation), this.#path);
  }

  /** The well and the sheets behind it, without anything worked out. */
  installation(variation?: Variation): Installation {
    const repository = variation === undefined ? this.#repository : this.#with(variation);
    const used = repository.known(this.#path);
    if (used?.state !== 'read') throw new Error(`there is no ${this.#path}`);
    const sheets = used.references.flatMap(({ entry, path }): [NodeIndex, Document][] => {
      const document = repository.document(path);
      return document === undefined || document.problems.length > 0 ? [] : [[entry, document]];
    });
    return new Installation(used.document, new Map(sheets));
  }

  #with({ path, text }: Variation): Repository {
    return this.#repository.update([{ path, text }]);
  }

  asItIs(): CheckedFile {
    return checked(this.#repository, this.#path);
  }

  #variationsAt(leaf: Leaf): readonly Variation[] {
    const [path = '', key = ''] = leaf.place.split(': ');
    const document = this.#repository.document(path);
    const node = document?.tree.find(key.replace(/\.(\d+)/g, '[$1]')) ?? NONE;
    if (document === undefined || node === NONE) throw new Error(`${path} has no ${key}`);
    const { start, end } = document.tree.span(node);
    const written = document.source.text;
    const name = `${path.slice(BASES.length + 1)}: ${key}`;
    return textsFor({ ...leaf, text: written.slice(start, end) }).map(([what, text]) => ({
      name: `${name} ${what}`,
      path,
      text: written.slice(0, start) + text + written.slice(end),
    }));
  }
}

function textsFor(leaf: Leaf): readonly (readonly [what: string, text: string])[] {
  const scaled = [0.5, 2].flatMap((factor) => {
    const text = withNumber(leaf, (number) => Number((number * factor).toPrecision(6)));
    return text === undefined ? [] : [[`times ${factor}`, text] as const];
  });
  return [['taken out', ''], ...scaled, ...others(leaf.text).map((text) => [`is ${text}`, text] as const)];
}

function others(text: string): readonly string[] {
  return CHOICES.filter((choice) => choice.includes(text)).flatMap((choice) => choice.filter((each) => each !== text));
}

/** The variations that change a number, each with what it makes of them; of those that come to the same, the first. */
export function telling(well: BaseWell): ReadonlyMap<string, string> {
  const seen = new Set([fingerprintOf(well.asItIs())]);
  const found = new Map<string, string>();
  for (const variation of well.variations()) {
    const fingerprint = fingerprintOf(well.varied(variation));
    if (!seen.has(fingerprint)) found.set(variation.name, fingerprint);
    seen.add(fingerprint);
  }
  return found;
}

/** The numbers of a well in a few letters: nobody would read a thousand full lists. */
function fingerprintOf(file: CheckedFile): string {
  return createHash('sha256').update(numbersOf(file)).digest('hex').slice(0, 12);
}

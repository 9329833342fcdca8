import type { Document } from '../format/document.ts';
import { NONE, type NodeIndex } from '../syntax/tree.ts';
import type { Range, Span } from '../text/span.ts';
import { SLOTS } from './installation.ts';

/** An entry of an installation as others see it, without the document that it stands in. */
export interface Fact {
  readonly key: string;
  readonly written: string;
  /** As it is compared: a serial number without regard to case, a duration in seconds. */
  readonly value: string;
  readonly span: Span;
  readonly range: Range;
}

/** What an installation is compared with others by. Small, so that those of a whole repository can be kept. */
export interface WellFacts {
  readonly path: string;
  /** Name of the well; compared in letters and digits. */
  readonly well: Fact;
  /** Names of field and pad in letters and digits; empty where none is entered. */
  readonly field: string;
  readonly pad: string;
  /** Serial numbers, each with the kind of equipment before it: a pump and a motor may share a number. */
  readonly serials: readonly Fact[];
  /**
   * Depths, lengths, serial numbers and the numbers among the setpoints, as written, by key. Zeros tell nothing, and
   * site, supply, fluid, reservoir and ratings are shared by neighbours.
   */
  readonly comparable: ReadonlyMap<string, string>;
  /** Delay of the restart, where the unit restarts by itself when the supply comes back. */
  readonly restartDelay: Fact | undefined;
  /** What keeps that from being known. */
  readonly restartLacks: readonly string[];
}

const COMPARED = [
  ...['well.intake', 'well.perforations', 'well.survey'],
  ...['equipment.gauge.below_intake', 'equipment.cable.motor_lead.length', 'setpoints'],
];
const CABLE = 'equipment.cable.main';

/** What others compare an installation with; undefined for one without a name. Computed once per text. */
export function wellFactsOf(document: Document): WellFacts | undefined {
  const { tree } = document;
  const well = tree.find('site.well');
  if (document.kind !== 'installation' || well === NONE || !tree.isScalar(well) || tree.isAbsent(well))
    return undefined;
  const serials = serialsOf(document);
  const numbers = [...COMPARED.map((path) => tree.find(path)), ...cableLengths(document)];
  return {
    path: document.path,
    well: factOf(document, well, lettersAndDigits(tree.scalar(well))),
    field: lettersAndDigits(textAt(document, 'site.field')),
    pad: lettersAndDigits(textAt(document, 'site.pad')),
    serials,
    comparable: new Map([
      ...serials.map(({ key, value }): [string, string] => [key, value]),
      ...numbers.flatMap((node) => numbersBelow(document, node)),
    ]),
    ...restartOf(document),
  };
}

/** A name without what people write in different ways: `QM-A1`, `QM A1` and `qm_a1` are one. */
function lettersAndDigits(text: string): string {
  return text.replace(/[^\p{L}\p{N}]/gu, '').toLowerCase() || text.trim();
}

function textAt({ tree }: Document, path: string): string {
  const node = tree.find(path);
  return node === NONE || tree.isAbsent(node) ? '' : tree.scalar(node);
}

function factOf({ tree, source }: Document, node: NodeIndex, value: string): Fact {
  const span = tree.span(node);
  return { key: tree.path(node), written: tree.scalar(node).trim(), value, span, range: source.rangeOf(span) };
}

/** What people enter where the number is not known yet. */
const PLACEHOLDER = /^(tbd|tba|n\/?a|none|unknown|pending|open|later|x+)$/i;

function serialsOf(document: Document): readonly Fact[] {
  const { tree } = document;
  return SLOTS.flatMap(({ path, kind }) =>
    rowsAt(document, path).flatMap((row) => {
      const node = tree.child(row, 'serial');
      if (node === NONE || tree.isAbsent(node)) return [];
      const serial = tree.scalar(node).trim();
      if (!/[\p{L}\p{N}]/u.test(serial) || PLACEHOLDER.test(serial)) return [];
      return [factOf(document, node, `${kind} ${serial.toUpperCase()}`)];
    }),
  );
}

/** The rows at a path; a mapping counts as the only one. */
function rowsAt({ tree }: Document, path: string): readonly NodeIndex[] {
  const node = tree.find(path);
  if (node === NONE) return [];
  return tree.isSequence(node) ? [...tree.children(node)] : [node];
}

function cableLengths(document: Document): readonly NodeIndex[] {
  return rowsAt(document, CABLE).map((row) => document.tree.child(row, 'length'));
}

/** The quantities below a node, or the node's own, by key and as written. */
function numbersBelow(document: Document, node: NodeIndex): readonly [string, string][] {
  const found: [string, string][] = [];
  if (node !== NONE) addNumbers(document, node, document.tree.path(node), found);
  return found;
}

/** @param key that of the node: it grows on the way down, since to climb up from each number takes as long as all else */
function addNumbers(document: Document, node: NodeIndex, key: string, found: [string, string][]): void {
  const { tree, quantities } = document;
  const quantity = quantities[node];
  if (quantity === undefined) {
    for (const child of tree.children(node)) addNumbers(document, child, tree.pathBelow(key, child), found);
  } else if (quantity.number !== 0) found.push([key, `${quantity.number} ${quantity.unit}`]);
}

const SUPPLY_FAILURE = 'undervoltage';

/** When the unit restarts after the supply has failed, as far as the file says so. */
function restartOf(document: Document): Pick<WellFacts, 'restartDelay' | 'restartLacks'> {
  const { tree, quantities } = document;
  const restart = 'setpoints.restart';
  const mode = textAt(document, `${restart}.mode`);
  const after = tree.find(`${restart}.after`);
  const delay = tree.find(`${restart}.delay`);
  const quantity = quantities[delay];
  const isRestarted = [...tree.children(after)].some((node) => tree.scalar(node) === SUPPLY_FAILURE);
  if (mode !== '' && (mode !== 'automatic' || (after !== NONE && !isRestarted))) return NO_RESTART;
  const lacks = [
    ...(mode === '' ? [`${restart}.mode`] : []),
    ...(after === NONE ? [`${restart}.after`] : []),
    ...(quantity === undefined ? [`${restart}.delay`] : []),
    ...(textAt(document, 'site.pad') === '' ? ['site.pad'] : []),
  ];
  if (lacks.length > 0 || quantity === undefined) return { restartDelay: undefined, restartLacks: lacks };
  return { restartDelay: factOf(document, delay, `${quantity.value.toPrecision(9)} s`), restartLacks: [] };
}

const NO_RESTART = { restartDelay: undefined, restartLacks: [] };

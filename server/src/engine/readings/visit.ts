import type { CheckedFile } from '../check-document.ts';
import { buildChecklist, type Checklist } from '../checklist/checklist.ts';
import { Facts } from '../checklist/facts.ts';
import type { Step } from '../checklist/step.ts';
import type { Document } from '../format/document.ts';
import { NONE, type NodeIndex } from '../syntax/tree.ts';

/** A step of the checklist with its place in the order of the work. */
export interface PlacedStep {
  readonly step: Step;
  readonly order: number;
}

/** One text of a reading, with the key at which it stands in the document. */
export interface Entry {
  readonly key: string;
  readonly text: string;
  /** Position among the fields of the step. */
  readonly index: number;
}

/** What was answered at one item, and the step that it answers. */
export interface Row {
  /** Dotted key in the document, such as `readings[3]`. */
  readonly key: string;
  readonly item: string;
  readonly entries: readonly Entry[];
  readonly by: string | undefined;
  readonly at: string | undefined;
  readonly instrument: string | undefined;
  readonly note: string | undefined;
  /** Undefined for an item that the checklist does not have. */
  readonly placed: PlacedStep | undefined;
}

/** The readings of one visit beside the checklist of the installation that was visited. */
export class Visit {
  readonly document: Document;
  readonly planned: CheckedFile;
  readonly facts: Facts;
  readonly checklist: Checklist;
  readonly today: string;
  readonly steps: ReadonlyMap<string, PlacedStep>;
  readonly rows: readonly Row[];
  readonly #byItem: ReadonlyMap<string, Row>;

  /** @throws Error where the installation has no checklist */
  constructor(document: Document, planned: CheckedFile, today: string) {
    this.document = document;
    this.planned = planned;
    this.today = today;
    this.checklist = buildChecklist(planned, { units: 'as-written' });
    if (planned.worked === undefined) throw new Error(`${planned.document.path} was not worked out`);
    this.facts = new Facts(planned, planned.worked, 'as-written');
    this.steps = placedSteps(this.checklist);
    this.rows = readRows(document, this.steps);
    // Of an item given twice the first counts; that it is given twice is a finding.
    this.#byItem = new Map([...this.rows].reverse().map((row) => [row.item, row]));
  }

  row(item: string): Row | undefined {
    return this.#byItem.get(item);
  }

  /** The text of an entry; undefined where it is absent or empty. */
  text(key: string): string | undefined {
    return textAt(this.document, this.document.tree.find(key));
  }

  /** Whether a step was answered: ticked, read, set or signed. */
  isAnswered({ id, kind }: Step): boolean {
    const row = this.row(id);
    if (kind === 'set' && this.asLeft(id) !== undefined) return true;
    if (row === undefined) return false;
    if (kind === 'hold') return signatureOf(row) !== undefined;
    if (kind === 'do') return saysYes(row);
    return row.entries.some(({ text }) => text !== '');
  }

  /** The setpoint that a step of the setting sheet left, as text; undefined without one. */
  asLeft(id: string): string | undefined {
    const key = asLeftKey(id);
    const node = key === undefined ? NONE : this.document.tree.find(key);
    return node === NONE ? undefined : writtenAt(this.document, node);
  }
}

/** Where a step of the setting sheet is entered: `settings.start.override` at `as_left.start.override`. */
export function asLeftKey(id: string): string | undefined {
  const [, key] = /^settings\.(?!operation\.)(.+)$/.exec(id) ?? [];
  return key === undefined ? undefined : `as_left.${key}`;
}

/** Who signed; a name may stand as the value too. */
export function signatureOf(row: Row): string | undefined {
  const name = row.by ?? row.entries[0]?.text ?? '';
  return name === '' || (row.by === undefined && /^(yes|no|true|false|x)$/i.test(name)) ? undefined : name;
}

export function saysYes({ entries }: Row): boolean {
  return /^(yes|true|on|done|x)$/i.test(entries[0]?.text ?? '');
}

/** A scalar as written, a list with commas; undefined where nothing stands. */
export function writtenAt(document: Document, node: NodeIndex): string | undefined {
  const { tree } = document;
  if (!tree.isSequence(node)) return textAt(document, node);
  return [...tree.children(node)].map((item) => tree.scalar(item).trim()).join(', ') || undefined;
}

function placedSteps({ stages }: Checklist): ReadonlyMap<string, PlacedStep> {
  const steps = stages.flatMap((stage) => stage.steps);
  return new Map(steps.map((step, order) => [step.id, { step, order }]));
}

function readRows(document: Document, steps: ReadonlyMap<string, PlacedStep>): readonly Row[] {
  const { tree } = document;
  return [...tree.children(tree.find('readings'))].flatMap((node) => {
    const text = (key: string) => textAt(document, tree.child(node, key));
    const item = text('item');
    if (item === undefined) return [];
    const [by, at, instrument, note] = [text('by'), text('at'), text('instrument'), text('note')];
    const row = { key: tree.path(node), item, entries: entriesOf(document, node), by, at, instrument, note };
    return [{ ...row, placed: steps.get(item) }];
  });
}

function entriesOf(document: Document, row: NodeIndex): readonly Entry[] {
  const { tree } = document;
  const single = tree.child(row, 'value');
  const several = tree.child(row, 'values');
  const nodes = [...(single === NONE ? [] : [single]), ...(several === NONE ? [] : tree.children(several))];
  return nodes.map((node, index) => ({ key: tree.path(node), text: textAt(document, node) ?? '', index }));
}

function textAt({ tree }: Document, node: NodeIndex): string | undefined {
  if (node === NONE || !tree.isScalar(node) || tree.isAbsent(node)) return undefined;
  return tree.scalar(node).trim() || undefined;
}

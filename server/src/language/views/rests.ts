import {
  type Document,
  explainInputs,
  HANDBOOK,
  NONE,
  type NodeIndex,
  State,
  type Worked,
} from '../../engine/index.ts';
import { anchorOf, anchorOfBound, anchorOfWindow } from '../../render/worksheet/html.ts';
import { caseIndices } from '../driven-values.ts';

/** What rests on an entry: anchors of a panel by the entry's node, for each document. */
export class Rests {
  readonly #byDocument = new Map<string, Map<NodeIndex, string[]>>();

  add({ document, node }: { readonly document: Document; readonly node: NodeIndex }, anchor: string): void {
    const nodes = this.#byDocument.get(document.path) ?? new Map<NodeIndex, string[]>();
    this.#byDocument.set(document.path, nodes);
    const anchors = nodes.get(node) ?? [];
    if (!anchors.includes(anchor)) nodes.set(node, [...anchors, anchor]);
  }

  /** What rests on any entry of a document. */
  within({ path }: Document): readonly string[] {
    return [...(this.#byDocument.get(path)?.values() ?? [])].flat();
  }

  /** What rests on an entry itself, on a list that it is part of, or on an entry within it. */
  on({ path, tree }: Document, node: NodeIndex): readonly string[] {
    const nodes = this.#byDocument.get(path);
    if (nodes === undefined || node === NONE || node === tree.root) return [];
    const found = [...nodes].filter(([each]) => isWithin(tree, each, node) || isWithin(tree, node, each));
    return [...new Set(found.flatMap(([, anchors]) => anchors))];
  }
}

function isWithin(tree: Document['tree'], inner: NodeIndex, outer: NodeIndex): boolean {
  let node = inner;
  while (node !== NONE && node !== outer) node = tree.parent(node);
  return node === outer;
}

/** Values and bounds of a worksheet by the entries that they read. */
export function worksheetRests({ evaluation, windows }: Worked): Rests {
  const rests = new Rests();
  const addInputs = (node: Parameters<typeof explainInputs>[1], caseIndex: number, anchor: string) => {
    for (const { located } of explainInputs(evaluation, node, caseIndex)) if (located) rests.add(located, anchor);
  };
  for (const { window, applies, bounds } of windows) {
    if (!applies) continue;
    const setpoint = evaluation.locate(window.setpoint);
    if (setpoint !== undefined) rests.add(setpoint, anchorOfWindow(window.setpoint));
    for (const { bound, node, caseIndex } of bounds) addInputs(node, caseIndex ?? 0, anchorOfBound(bound.id));
  }
  for (const { id } of HANDBOOK) {
    const node = evaluation.network.byId.get(id);
    if (node === undefined) continue;
    for (const at of caseIndices(evaluation, node)) {
      if (evaluation.state(node, at) !== State.available) continue;
      addInputs(node, at, anchorOf(id, node.perCase ? at : undefined));
    }
  }
  return rests;
}

import { SLOTS } from '../links/installation.ts';
import type { Evaluation } from '../values/evaluation.ts';

/** A piece of equipment of the installation. */
export interface Item {
  /** Dotted key of its entry. */
  readonly key: string;
  readonly node: number;
  /** "the motor". */
  readonly title: string;
}

const TITLES: Readonly<Record<string, string>> = {
  'equipment.pump': 'the pump',
  'equipment.motor': 'the motor',
  'equipment.gauge': 'the gauge',
  'equipment.cable.main': 'the main cable',
  'equipment.cable.motor_lead': 'the motor lead',
  'equipment.transformer': 'the transformer',
  'equipment.drive': 'the drive',
};

/** The pieces of equipment that are entered, each run of cable for itself. */
export function itemsOf(evaluation: Evaluation): readonly Item[] {
  return SLOTS.flatMap(({ path }) => itemsAt(evaluation, path));
}

/** The entries of one place of the format; several where it is a list of runs. */
export function itemsAt(evaluation: Evaluation, path: string): readonly Item[] {
  const { document } = evaluation.installation;
  const nodes = evaluation.rowNodes(path) ?? [];
  const title = TITLES[path] ?? path;
  return nodes.map(({ node }, at) => ({
    key: document.tree.path(node),
    node,
    title: nodes.length > 1 ? `section ${at + 1} of ${title}` : title,
  }));
}

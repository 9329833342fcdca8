import type { Facts } from './facts.ts';

/** A piece of equipment that is received, inspected and installed. */
export interface Item {
  /** Part of the steps' ids. */
  readonly id: string;
  /** Its entry in the installation. */
  readonly key: string;
  readonly title: string;
  readonly kind: 'motor' | 'pump' | 'gauge' | 'cable' | 'transformer' | 'drive';
  /** Whether it goes down the well. */
  readonly downhole: boolean;
}

const SINGLE: readonly Item[] = [
  { id: 'motor', key: 'equipment.motor', title: 'motor', kind: 'motor', downhole: true },
  { id: 'pump', key: 'equipment.pump', title: 'pump', kind: 'pump', downhole: true },
  { id: 'gauge', key: 'equipment.gauge', title: 'gauge', kind: 'gauge', downhole: true },
  { id: 'motor_lead', key: 'equipment.cable.motor_lead', title: 'motor lead', kind: 'cable', downhole: true },
];
const SURFACE: readonly Item[] = [
  { id: 'transformer', key: 'equipment.transformer', title: 'transformer', kind: 'transformer', downhole: false },
  { id: 'drive', key: 'equipment.drive', title: 'drive', kind: 'drive', downhole: false },
];

/** The equipment of an installation in the order in which it is inspected. */
export function itemsOf(facts: Facts): readonly Item[] {
  return [...SINGLE, ...cablesOf(facts), ...SURFACE].filter(({ key }) => facts.has(key));
}

/** The main cable, or each of its sections; the first keeps its id when sections are added. */
export function cablesOf(facts: Facts): readonly Item[] {
  const main = 'equipment.cable.main';
  const sections = facts.rows(main).length;
  const single = !facts.has(`${main}[0]`);
  return Array.from({ length: sections }, (_, index) => ({
    id: index === 0 ? 'cable' : `cable_${index + 1}`,
    key: single ? main : `${main}[${index}]`,
    title: single ? 'main cable' : `main cable, section ${index + 1}`,
    kind: 'cable',
    downhole: true,
  }));
}

/** The item as it is called on site: its type's name from the sheet, in quotes. */
export function nameOf(facts: Facts, item: Item): string {
  const name = facts.text(`${item.key}.name`);
  return name === undefined ? `the ${item.title}` : `the ${item.title} '${name}'`;
}

import type { Measure } from '../findings/finding.ts';
import type { Facts } from './facts.ts';
import type { Item } from './items.ts';
import { slugs } from './step.ts';

/** What kind of test it is, by its name; it decides on the fields and on the caution before it. */
export type TestNature = 'insulation' | 'resistance' | 'movement' | 'other';

/** A test of a data sheet, or one that every such item gets where the sheet has none. */
export interface ItemTest {
  /** Last part of the step's id. */
  readonly id: string;
  readonly name: string;
  readonly nature: TestNature;
  readonly instrument: string | undefined;
  readonly voltage: Measure | undefined;
  /** The same in V. */
  readonly volts: number | undefined;
  readonly duration: Measure | undefined;
  readonly min: Measure | undefined;
  readonly max: Measure | undefined;
  /** Greatest deviation from the mean over the mean, as a share. */
  readonly unbalance: number | undefined;
}

const NATURES: readonly (readonly [TestNature, RegExp])[] = [
  ['insulation', /insulation/i],
  ['movement', /\b(free|freely|movement|rotation|turns?|moves?)\b/i],
  ['resistance', /resistance|continuity/i],
];

/** Tests that an item of that kind gets in any case; a sheet's own test of the same nature takes its place. */
const USUAL: Readonly<Record<Item['kind'], readonly string[]>> = {
  motor: ['insulation', 'winding resistance', 'free movement'],
  pump: ['free movement'],
  gauge: [],
  cable: ['insulation', 'conductor resistance'],
  transformer: [],
  drive: [],
};

/** The tests of an item at receipt, those of its sheet first and in its order. */
export function testsOf(facts: Facts, item: Item): readonly ItemTest[] {
  const rows = facts.rows(`${item.key}.inspection`);
  const names = rows.map((row) => row.text('test') ?? 'test');
  const ids = slugs(names);
  const own = rows.map(
    (row, index): ItemTest => ({
      id: ids[index] ?? 'test',
      name: names[index] ?? 'test',
      nature: natureOf(names[index] ?? ''),
      instrument: row.text('instrument'),
      voltage: row.measure('test_voltage'),
      volts: row.number('test_voltage'),
      duration: row.measure('duration'),
      min: row.measure('limit.min'),
      max: row.measure('limit.max'),
      unbalance: row.number('limit.unbalance_max'),
    }),
  );
  const usual = USUAL[item.kind].filter((name) => !own.some(({ nature }) => nature === natureOf(name)));
  return [...own, ...usual.map((name) => bare(name))];
}

function bare(name: string): ItemTest {
  return {
    id: slugs([name])[0] ?? name,
    name,
    nature: natureOf(name),
    instrument: undefined,
    voltage: undefined,
    volts: undefined,
    duration: undefined,
    min: undefined,
    max: undefined,
    unbalance: undefined,
  };
}

function natureOf(name: string): TestNature {
  return NATURES.find(([, pattern]) => pattern.test(name))?.[0] ?? 'other';
}

/**
 * The motor's insulation test as it is made on the installed string. A gauge below the motor cannot be taken off any
 * more, so its own greatest test voltage holds where that is lower.
 */
export function installedInsulation(facts: Facts): ItemTest | undefined {
  const motor: Item = { id: 'motor', key: 'equipment.motor', title: 'motor', kind: 'motor', downhole: true };
  const test = testsOf(facts, motor).find(({ nature }) => nature === 'insulation');
  const most = 'equipment.gauge.test_voltage_max';
  const ofGauge = facts.number(most);
  const isCapped = test?.volts !== undefined && ofGauge !== undefined && ofGauge < test.volts;
  return isCapped ? { ...test, voltage: facts.measure(most), volts: ofGauge } : test;
}

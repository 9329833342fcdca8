import type { Facts } from './facts.ts';
import type { Item } from './items.ts';
import { rounded, shown } from './notation.ts';
import type { ItemTest } from './sheet-tests.ts';
import { read, type Step, type StepDetails } from './step.ts';

/** The three readings between the phases. */
export const PHASES = ['A-B', 'B-C', 'C-A'] as const;

/** An insulation test with its voltage, duration and minimum; what is lacking is said in the step. */
export function insulationStep(facts: Facts, item: Item, test: ItemTest, id: string): Step {
  const voltage = test.voltage === undefined ? '' : ` at ${shown(test.voltage)} d.c.`;
  const duration = test.duration === undefined ? '' : ` after ${shown(test.duration)}`;
  const text = `Insulation of the ${item.title}, all conductors together to earth${voltage}${duration}; write down its temperature.`;
  // The rule for the temperature was written for the windings of machines, not for cables.
  const temperatureStep = item.kind === 'motor' ? `inspection.${item.id}.temperature` : undefined;
  return read(id, text, { ...insulationDetails(facts, item, test), temperatureStep });
}

function insulationDetails(facts: Facts, item: Item, test: ItemTest): StepDetails {
  const computed = test.min === undefined ? leastOfLength(facts, item) : undefined;
  const missing = [
    ...(test.voltage === undefined ? ['test_voltage'] : []),
    ...(test.duration === undefined ? ['duration'] : []),
    ...(test.min === undefined && computed === undefined ? ['limit.min'] : []),
  ];
  const asked = missing.map((each) => `'${each}'`).join(', ');
  const unknown =
    missing.length === 0 ? '' : `Not known: enter ${asked} of the test '${test.name}' under '${item.key}.inspection'.`;
  if (computed !== undefined)
    return {
      unit: 'Mohm',
      limit: { min: computed.least },
      note: `${computed.basis} ${unknown}`.trim(),
      source: 'data sheet',
    };
  return {
    unit: test.min?.unit ?? 'Mohm',
    limit: test.min === undefined ? undefined : { min: test.min.number },
    note: unknown === '' ? undefined : unknown,
    source: test.min === undefined ? undefined : 'data sheet',
  };
}

const OHM_PER_MEGOHM = 1e6;

/** The least insulation of a cable from its sheet's figure times length; a longer cable has less. */
function leastOfLength(facts: Facts, item: Item): { readonly least: number; readonly basis: string } | undefined {
  const perLength = facts.number(`${item.key}.insulation_resistance_length`);
  const length = facts.number(`${item.key}.length`);
  if (perLength === undefined || length === undefined || length <= 0) return undefined;
  const figure = facts.show(`${item.key}.insulation_resistance_length`);
  return {
    least: rounded(perLength / length / OHM_PER_MEGOHM),
    basis: `The sheet’s ${figure} over ${facts.show(`${item.key}.length`)}; it holds at the sheet’s temperature.`,
  };
}

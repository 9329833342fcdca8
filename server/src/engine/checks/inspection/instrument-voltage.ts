import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement } from '../declare.ts';
import { type Item, itemsOf } from '../slots.ts';

const EXAMPLE = 'equipment.motor.inspection';
/** A voltage in the name of an instrument: "insulation tester 1000 V", "5 kV tester". */
const VOLTAGE = /(\d+(?:\.\d+)?)\s*(k?)V\b/g;

/** The greatest voltage that the name of an instrument gives it, V; undefined where it gives none. */
function reachOf(instrument: string): number | undefined {
  const voltages = [...instrument.matchAll(VOLTAGE)].map(
    ([, number, kilo]) => Number(number) * (kilo === 'k' ? 1000 : 1),
  );
  return voltages.length === 0 ? undefined : Math.max(...voltages);
}

/** The tests of an item that ask for more than the instrument named for them gives. */
function outOfReach(context: CheckContext, { key, title }: Item): readonly Judgement[] {
  const { evaluation } = context;
  const { installation } = evaluation;
  return (evaluation.rowNodes(`${key}.inspection`) ?? []).flatMap((_, at): Judgement[] => {
    const row = `${key}.inspection[${at}]`;
    const [voltage, named] = [installation.locate(`${row}.test_voltage`), installation.locate(`${row}.instrument`)];
    if (voltage === undefined || named === undefined) return [];
    const [number, instrument] = [installation.number(voltage), installation.text(named).trim()];
    const reach = reachOf(instrument);
    if (reach === undefined || !(number > reach)) return [];
    return [
      {
        key: `${row}.test_voltage`,
        message: `A test of ${title} asks for ${context.show(number, 'voltage', `${row}.test_voltage`)} and names an instrument that gives less, '${instrument}'. Correct the one that is wrong.`,
        value: { number, kind: 'voltage' },
        limit: { number: reach, kind: 'voltage' },
      },
    ];
  });
}

export const INSPECTION_INSTRUMENT_VOLTAGE: Check = check({
  id: 'inspection.instrument-voltage',
  severity: 'warning',
  title: 'test voltage above what the instrument gives',
  compares:
    'the test voltage of each insulation test with the voltage in the name of its instrument, where there is one',
  why: 'The crew comes with an instrument with which the test cannot be made, or makes it with a voltage of its own.',
  mend: 'Correct the test voltage, or name an instrument that gives it.',
  source: 'definition',
  example: {
    lift: 'linear',
    fails: { [EXAMPLE]: '[ { test: insulation, instrument: insulation tester 500 V, test_voltage: 1000 V } ]' },
    passes: { [EXAMPLE]: '[ { test: insulation, instrument: insulation tester 1000 V, test_voltage: 1000 V } ]' },
    at: `${EXAMPLE}[0].test_voltage`,
  },
  needs: {},
  run: (_, context) => itemsOf(context.evaluation).flatMap((item) => outOfReach(context, item)),
});

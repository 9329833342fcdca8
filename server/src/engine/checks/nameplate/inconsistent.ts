import { NONE } from '../../syntax/tree.ts';
import { LINEAR, present, ROTARY } from '../../values/conditions.ts';
import { entry, limit, optionalValue, value } from '../../values/declare.ts';
import { ROOT3 } from '../../values/physics.ts';
import type { CheckContext } from '../context.ts';
import { type Check, checkOfParts, type Part, part } from '../declare.ts';
import { differs } from '../difference.ts';

const MOTOR = 'equipment.motor';
/** Loss over R·I²: three phases of half the resistance that is measured line to line; a delta gives the same. */
const LINE_TO_LINE_LOSS = 1.5;
const HORSEPOWER = 0.7457;
/** How closely the two powers must be in the ratio of a usual mistake for it to be named. */
const SAME = 0.05;
const COUNTED = ['power', 'thrust', 'speed', 'voltage', 'current', 'power_factor', 'efficiency'] as const;
const MISTAKES: readonly { readonly ratio: number; readonly hint: string }[] = [
  { ratio: HORSEPOWER, hint: 'It looks like a power in hp that is entered in kW.' },
  { ratio: 1 / HORSEPOWER, hint: 'It looks like a power in kW that is entered in hp.' },
  { ratio: ROOT3, hint: 'It looks like √3 counted twice in the voltage.' },
  { ratio: 1 / ROOT3, hint: 'It looks like a phase voltage in place of the line voltage.' },
];

function hintFor(ratio: number): string {
  const mistake = MISTAKES.find((each) => Math.abs(ratio / each.ratio - 1) <= SAME);
  return mistake?.hint ?? 'Compare each of them with the plate.';
}

/** What counts in and stands in the installation itself, over the data sheet, if it is one entry alone: the likely slip. */
function overridden({ evaluation }: CheckContext): string | undefined {
  const { tree } = evaluation.installation.document;
  const keys = COUNTED.map((key) => `${MOTOR}.${key}`).filter((key) => tree.find(key) !== NONE);
  return keys.length === 1 ? keys[0] : undefined;
}

function consistency(stated: { readonly key: string; readonly words: string }, when: Part['when']): Part {
  return part({
    when,
    needs: {
      computed: value('motor.nameplate_power'),
      power: value('motor.rated_power'),
      most: limit('nameplate.inconsistent'),
      wrong: limit('nameplate.inconsistent.error'),
    },
    run: ({ computed, power, most, wrong }, context) =>
      differs(context, {
        key: overridden(context) ?? stated.key,
        value: { number: computed, kind: 'power' },
        due: { number: power, kind: 'power' },
        most,
        severity: Math.abs(computed / power - 1) > wrong ? 'error' : 'warning',
        says: (own, other, apart) =>
          `Voltage, current, power factor and efficiency of the motor give ${own} at the shaft; ${stated.words} ${other}. They are ${apart} apart. ${hintFor(computed / power)}`,
        related: ['voltage', 'current', 'power_factor', 'efficiency'].map((key) => ({
          key: `${MOTOR}.${key}`,
          message: 'counts in',
        })),
      }),
  });
}

/** Share of its input that the winding of any motor of these turns to heat (common practice, no source). */
const LEAST_LOSS = 0.002;

const WINDING = `${MOTOR}.phase_resistance`;

/** Entries that make up the electrical input. */
const INPUT = ['voltage', 'current', 'power_factor'] as const;

/** What the winding turns to heat against all that the motor takes. */
const WINDING_LOSS: Part = part({
  when: [present(WINDING)],
  needs: {
    resistance: entry(WINDING),
    voltage: entry(`${MOTOR}.voltage`),
    current: entry(`${MOTOR}.current`),
    powerFactor: entry(`${MOTOR}.power_factor`),
    computed: optionalValue('motor.nameplate_power'),
    power: optionalValue('motor.rated_power'),
    most: limit('nameplate.inconsistent'),
  },
  run: ({ resistance, voltage, current, powerFactor, computed, power, most }, context) => {
    // Where the powers disagree, one of the other entries is wrong, and is spoken of already.
    if (computed !== undefined && power !== undefined && Math.abs(computed / power - 1) > most) return undefined;
    const loss = LINE_TO_LINE_LOSS * resistance * current ** 2;
    const input = ROOT3 * voltage * current * powerFactor;
    const isNothing = loss < LEAST_LOSS * input;
    if (loss < input && !isNothing) return undefined;
    const show = (watts: number) => context.show(watts, 'power');
    const against = isNothing
      ? `next to nothing of the ${show(input)} that the motor takes`
      : `and the motor takes no more than ${show(input)} in all`;
    return {
      key: WINDING,
      ...(isNothing ? { severity: 'warning' as const } : {}),
      message: `A winding of ${context.text(WINDING)} line to line turns ${show(loss)} to heat at rated current, ${against}. Look for a slip of the decimal point, and for milliohm.`,
      value: { number: loss, kind: 'power' },
      limit: { number: input, kind: 'power' },
      related: INPUT.map((key) => ({ key: `${MOTOR}.${key}`, message: 'counts in' })),
    };
  },
});

export const NAMEPLATE_INCONSISTENT: Check = checkOfParts(
  {
    id: 'nameplate.inconsistent',
    severity: 'error',
    title: 'nameplate of the motor contradicts itself',
    compares:
      '√3 × voltage × current × power factor × efficiency with the stated power, of a linear motor with thrust × ' +
      'speed: ' +
      'beyond 10 % a warning, beyond 25 % an error; and the loss of the winding at 20 degC, 1.5 × resistance line to ' +
      'line × current², with √3 × voltage × current × power factor: not above it, and not below 0.2 % of it',
    why: 'One of the numbers is wrong, and voltage, current and load of every case rest on all of them.',
    mend: 'Compare the entries with the plate: line voltage, kW or hp, and the efficiency at full load.',
    source:
      'definition of efficiency; loss of a three-phase winding, any machines text; the limits are common practice, no source',
    example: { lift: 'rotary', fails: { 'equipment.motor.power': '60 kW' }, at: 'equipment.motor.power' },
  },
  [
    consistency({ key: 'equipment.motor.power', words: 'its stated power is' }, [ROTARY]),
    consistency({ key: 'equipment.motor.thrust', words: 'its thrust times its speed is' }, [LINEAR]),
    WINDING_LOSS,
  ],
);

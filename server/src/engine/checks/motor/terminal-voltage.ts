import { DIRECT_ON_LINE, WITH_DRIVE } from '../../values/conditions.ts';
import { type Input, limit, optionalValue, type Seen, value } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, checkOfParts, part, type Verdict } from '../declare.ts';
import { TAP_CHOICE, type TapChoice } from '../tap/alternatives.ts';

/** Flux over rated that no core stands for long (IEC 60076-1 5.4.3, at no load, from memory). */
const MOST_FLUX = 1.1;

const MEND = 'Look at tap, base frequency and boost: together they make the voltage.';

/** `terminal`: V at the motor, of the end of the supply that is judged. */
function needs(terminal: Input<number>) {
  return {
    ...TAP_CHOICE,
    terminal,
    flux: optionalValue('transformer.flux'),
    needed: value('motor.voltage'),
    comfortable: limit('motor.terminal-voltage'),
    wrong: limit('motor.terminal-voltage.error'),
  };
}

function judge(
  { terminal, needed, comfortable, wrong, flux, ...choice }: Seen<ReturnType<typeof needs>>,
  context: CheckContext,
  { from, mend }: { readonly from: string; readonly mend: string },
): Verdict {
  if (!(needed > 0)) return undefined;
  const deviation = terminal / needed - 1;
  const size = Math.abs(deviation);
  if (size <= comfortable) return { margin: { number: comfortable - size, kind: 'ratio' } };
  const severity = size > wrong ? 'error' : 'warning';
  const most = 1 + Math.sign(deviation) * (severity === 'error' ? wrong : comfortable);
  const show = (voltage: number) => context.show(voltage, 'voltage', 'equipment.motor.voltage');
  const causes = deviation < 0 && isOverfluxed(flux) ? CORE : windowBroken(choice);
  return {
    key: 'setpoints.transformer.tap',
    severity,
    message: `The motor gets ${show(terminal)} in the case '${context.caseName}'${from} and needs ${show(needed)}: ${context.show(size, 'ratio')} too ${deviation < 0 ? 'little' : 'much'}. ${mend}`,
    value: { number: terminal, kind: 'voltage' },
    limit: { number: needed * most, kind: 'voltage' },
    ...(causes.length === 0 ? {} : { follows: causes }),
  };
}

export const TERMINAL_VOLTAGE: Check = checkOfParts(
  {
    id: 'motor.terminal-voltage',
    severity: 'error',
    title: 'voltage at the motor off what it needs',
    compares:
      'what the motor gets at its terminals with what it needs at that frequency and load, at the worse end of the ' +
      'supply; on the line, where the voltage goes with the supply, at its nominal voltage. More than 5 % is a warning, ' +
      'more than 10 % an error',
    why: 'Too little, and the motor draws more current or stalls; too much, and its core and its insulation suffer.',
    mend: MEND,
    source: 'NEMA MG-1 12.44, ± 10 % for motors in general (from memory); 5 % is common practice, no source',
    example: {
      lift: 'rotary',
      fails: { 'setpoints.drive.voltage_mode': 'volts_per_hertz', 'setpoints.drive.base_frequency': '54 Hz' },
      passes: { 'setpoints.drive.voltage_mode': 'volts_per_hertz', 'setpoints.drive.base_frequency': '57 Hz' },
      at: 'setpoints.transformer.tap',
    },
  },
  [
    part({
      when: [WITH_DRIVE],
      needs: needs(value('motor.terminal_voltage')),
      run: (seen, context) => judge(seen, context, { from: '', mend: MEND }),
    }),
    part({
      when: [DIRECT_ON_LINE],
      needs: needs(value('motor.terminal_voltage_at_nominal_supply')),
      run: (seen, context) =>
        judge(seen, context, { from: ' at the supply’s nominal voltage', mend: 'Take another tap.' }),
    }),
  ],
);

/** With more flux than any core stands the transformer cannot give the voltage, and its own checks say so. */
const CORE = [
  'tap.below-window',
  'tap.phase-voltage',
  'tap.no-window',
  'transformer.saturates-at-low-frequency',
  'transformer.flux',
];

function isOverfluxed(flux: number | undefined): boolean {
  return flux !== undefined && flux > MOST_FLUX;
}

/** The checks that report a tap outside of its window, if it is: then that is the cause. */
function windowBroken({ tap, least, most }: TapChoice): readonly string[] {
  if (tap === undefined) return [];
  if (least !== undefined && tap < least) return ['tap.below-window', 'tap.phase-voltage', 'tap.no-window'];
  return most !== undefined && tap > most ? ['tap.above-window', 'tap.phase-voltage', 'tap.no-window'] : [];
}

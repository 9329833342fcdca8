import { absent, DIRECT_ON_LINE, LINEAR, ROTARY, WITH_DRIVE, WITH_TRANSFORMER } from '../conditions.ts';
import { declareValue, entry, type Input, method, text, type ValueDeclaration, value, valueBy } from '../declare.ts';

const DEFINED = 'the document format';

/** Amperes at the side where a protection measures, for each ampere at the motor. */
function sideRatio(protection: string): ValueDeclaration {
  const side = `setpoints.protection.${protection}.side`;
  return valueBy(`${protection}.side_ratio`, 'current at the side of the protection over that of the motor', 'plain', [
    method({
      when: [{ path: side, isNot: ['drive'] }],
      formula: '1',
      source: DEFINED,
      inputs: { side: text(side, 'motor') },
      compute: () => 1,
    }),
    method({
      when: [{ path: side, is: ['drive'] }, WITH_TRANSFORMER],
      formula: 'V_t/V_1',
      source: 'current ratio of a transformer, any machines text',
      inputs: { tap: value('transformer.tap_voltage'), primary: entry('equipment.transformer.primary_voltage') },
      compute: ({ tap, primary }) => tap / primary,
    }),
    method({
      when: [{ path: side, is: ['drive'] }, absent('equipment.transformer')],
      formula: '1',
      source: 'no transformer between drive and motor',
      inputs: {},
      compute: () => 1,
    }),
  ]);
}

/** A current of the motor as a protection sees it: at its side, and over the cycle or at the peak of a stroke. */
function seenBy(
  protection: 'overload' | 'underload',
  id: string,
  title: string,
  { peak, rms }: { readonly peak: Input<number>; readonly rms: Input<number> },
): ValueDeclaration {
  const ratio = value(`${protection}.side_ratio`);
  return valueBy(`${protection}.${id}`, title, 'current', [
    method({
      when: [LINEAR],
      formula: 'I_rms over the cycle, or the peak with `basis: stroke_peak`, at the side of the protection',
      source: DEFINED,
      inputs: { peak, rms, ratio, basis: text(`setpoints.protection.${protection}.basis`, 'cycle_rms') },
      compute: (seen) => (seen.basis === 'stroke_peak' ? seen.peak : seen.rms) * seen.ratio,
    }),
    method({
      when: [ROTARY],
      formula: 'I at the side of the protection',
      source: DEFINED,
      inputs: { peak, ratio },
      compute: (seen) => seen.peak * seen.ratio,
    }),
  ]);
}

const RUNNING = { peak: value('motor.current'), rms: value('motor.current_rms') };

export const PROTECTION_CURRENTS: readonly ValueDeclaration[] = [
  ...['overload', 'underload', 'short_circuit'].map(sideRatio),
  declareValue({
    id: 'overload.trip_at_motor',
    title: 'overload trip at the motor side',
    kind: 'current',
    formula: 'trip, at the drive side times V_1/V_t',
    source: DEFINED,
    inputs: { trip: entry('setpoints.protection.overload.trip'), ratio: value('overload.side_ratio') },
    compute: ({ trip, ratio }) => trip / ratio,
  }),
  seenBy('overload', 'running_current', 'running current as the overload protection sees it', RUNNING),
  seenBy('underload', 'running_current', 'running current as the underload protection sees it', RUNNING),
  seenBy('underload', 'restart_current', 'current after a restart as the underload protection sees it', {
    peak: value('motor.restart_current'),
    rms: value('motor.restart_current_rms'),
  }),
  seenBy('underload', 'idle_current', 'current of a pump that lifts nothing as the underload protection sees it', {
    peak: value('motor.idle_current'),
    rms: value('motor.idle_current_rms'),
  }),
  valueBy(
    'short_circuit.highest_current',
    'highest healthy current as the short-circuit protection sees it',
    'current',
    [
      method({
        when: [WITH_DRIVE],
        formula: 'I at the peak of a stroke, at the side of the protection',
        source: 'behind a drive the motor starts within its running current',
        inputs: { current: value('motor.current'), ratio: value('short_circuit.side_ratio') },
        compute: ({ current, ratio }) => current * ratio,
      }),
      method({
        when: [DIRECT_ON_LINE],
        formula: 'max(I, locked-rotor current), at the side of the protection',
        source: 'a motor on the line starts with its locked-rotor current',
        inputs: {
          current: value('motor.current'),
          locked: entry('equipment.motor.locked_rotor_current'),
          ratio: value('short_circuit.side_ratio'),
        },
        compute: ({ current, locked, ratio }) => Math.max(current, locked) * ratio,
      }),
    ],
  ),
];

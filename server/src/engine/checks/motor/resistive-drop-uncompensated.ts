import { VOLTS_PER_HERTZ, WITH_DRIVE } from '../../values/conditions.ts';
import { entry, entryOr, limit, value } from '../../values/declare.ts';
import { temperatureFactor } from '../../values/electrical/conductor.ts';
import { ROOT3 } from '../../values/physics.ts';
import { type Check, check } from '../declare.ts';
import { atMost } from '../within.ts';

const BOOST = 'setpoints.drive.boost';
const MODE = 'setpoints.drive.voltage_mode';

export const MOTOR_RESISTIVE_DROP_UNCOMPENSATED: Check = check({
  id: 'motor.resistive-drop-uncompensated',
  severity: 'warning',
  title: 'resistive drop without a boost',
  compares:
    'the resistive drop of winding and cable in each case with a fifth of the voltage that the motor needs there, ' +
    'where the ' +
    'drive keeps volts per hertz and no boost is entered',
  why:
    'The drop does not shrink with the frequency. At a few hertz it eats the voltage, and force falls with the ' +
    'current lost.',
  mend: "Enter a boost, or set 'voltage_mode: trimmed'.",
  source: 'any text on volts-per-hertz control; the limit is common practice, no source',
  example: {
    lift: 'linear',
    fails: { [MODE]: 'volts_per_hertz' },
    passes: { [MODE]: 'volts_per_hertz', [BOOST]: '20 V' },
    at: MODE,
  },
  when: [WITH_DRIVE, VOLTS_PER_HERTZ],
  needs: {
    boost: entryOr(BOOST, 0, 'no boost where none is entered'),
    current: value('motor.current'),
    winding: entry('equipment.motor.phase_resistance'),
    temperature: value('motor.winding_temperature'),
    cable: value('cable.resistance'),
    voltage: value('motor.voltage'),
    most: limit('motor.resistive-drop-uncompensated'),
  },
  run: ({ boost, current, winding, temperature, cable, voltage, most }, context) => {
    if (boost > 0) return undefined;
    // Entered line to line: two phases in series.
    const resistance = (winding / 2) * temperatureFactor(temperature) + cable;
    const drop = ROOT3 * current * resistance;
    return atMost(context, {
      key: MODE,
      kind: 'ratio',
      number: drop / voltage,
      limit: most,
      says: (own, allowed) =>
        `In the case '${context.caseName}' winding and cable drop ${context.show(drop, 'voltage')}, ${own} of what the motor needs there; without a boost ${allowed} is the limit. Enter a boost, or set 'voltage_mode: trimmed'.`,
      related: [{ key: BOOST, message: 'no boost' }],
      fixes: [
        {
          title: 'Trim the voltage at each frequency: the drive makes up for the drop',
          kind: 'offer',
          key: MODE,
          newText: 'trimmed',
        },
      ],
    });
  },
});

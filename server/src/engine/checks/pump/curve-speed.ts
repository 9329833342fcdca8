import { present, ROTARY } from '../../values/conditions.ts';
import { entry, limit } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const FREQUENCY = 'equipment.pump.curve.frequency';
const SPEED = 'equipment.pump.curve.speed';
const MOST_POLE_PAIRS = 4;
const CURVE_CALLED_60 =
  '{ frequency: 60 Hz, speed: 2900 rpm, density: 1000 kg/m3, points: [ { rate: 0 m3/d, head: 7.2 m, power: 0.12 kW }, ' +
  '{ rate: 120 m3/d, head: 6.3 m, power: 0.2 kW }, { rate: 220 m3/d, head: 1.2 m, power: 0.22 kW } ] }';

/** Share by which a speed falls short of the synchronous one that is next above it, Hz and Hz; over 1 if none is. */
function slipOf(turns: number, frequency: number): number {
  const pairs = Array.from({ length: MOST_POLE_PAIRS }, (_, at) => at + 1);
  const above = pairs.map((each) => frequency / each).filter((synchronous) => synchronous >= turns * (1 - 1e-6));
  return above.length === 0 ? Number.POSITIVE_INFINITY : 1 - turns / Math.min(...above);
}

export const PUMP_CURVE_SPEED: Check = check({
  id: 'pump.curve-speed',
  severity: 'warning',
  title: 'speed and frequency of the curve do not belong together',
  compares:
    'the speed of the pump’s curve with the synchronous speed at its frequency, for up to eight poles and a slip of 10 %',
  why: 'Head goes with the square of the speed, power with its cube: a curve for 60 Hz that is called one for 50 is 44 % off.',
  mend: 'Look at the head of the curve: 2917 rpm belongs to 50 Hz, 3500 rpm to 60 Hz.',
  source: 'n = 120·f/poles less slip, any machines text',
  example: { lift: 'rotary', fails: { 'equipment.pump.curve': CURVE_CALLED_60 }, at: FREQUENCY },
  when: [ROTARY, present(FREQUENCY), present(SPEED)],
  needs: {
    frequency: entry(FREQUENCY),
    turns: entry(SPEED),
    most: limit('motor.speed-and-frequency-disagree.slip'),
  },
  run: ({ frequency, turns, most }, context) => {
    const slip = slipOf(turns, frequency);
    if (slip <= most) return { margin: { number: most - slip, kind: 'ratio' } };
    return {
      key: FREQUENCY,
      message: `The pump’s curve is for ${context.text(SPEED)} at ${context.text(FREQUENCY)}, and no motor turns so at that frequency with a slip of ${context.show(most, 'ratio')} or less. Look at the head of the curve: 2917 rpm belongs to 50 Hz, 3500 rpm to 60 Hz.`,
      value: { number: frequency, kind: 'frequency' },
      related: [{ key: SPEED, message: 'the speed of the curve' }],
    };
  },
});

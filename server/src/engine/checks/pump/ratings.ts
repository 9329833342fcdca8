import { LINEAR, present, ROTARY } from '../../values/conditions.ts';
import { entry, value } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { overloaded } from '../loading.ts';
import { atMost } from '../within.ts';

const SHAFT = 'equipment.pump.shaft_power_max';
const DIFFERENCE = 'equipment.pump.differential_pressure_max';
const THRUST = 'equipment.motor.thrust';
const SHEET = 'the data sheets';

export const PUMP_SHAFT_POWER: Check = check({
  id: 'pump.shaft-power',
  severity: 'error',
  title: 'the shaft is overloaded',
  compares: 'the power of the pump in each case with what its shaft stands at that speed',
  why: 'A shaft twisted off takes the whole string out of the well.',
  mend: 'Lower the frequency, take a stronger shaft, or start on a lighter kill fluid.',
  source: 'power in proportion to speed at constant torque; the pump’s data sheet',
  example: { lift: 'rotary', fails: { [SHAFT]: '25 kW' }, at: SHAFT },
  when: [ROTARY, present(SHAFT)],
  needs: { power: value('pump.power'), ratio: value('pump.speed_ratio'), most: entry(SHAFT) },
  run: ({ power, ratio, most }, context) =>
    overloaded(
      context,
      {
        key: SHAFT,
        does: 'The shaft of the pump carries',
        demand: { number: power, kind: 'power' },
        rating: { number: most * ratio, kind: 'power' },
        ratingIs: 'that it stands at that speed',
        mend: 'Lower the frequency, or take a stronger shaft.',
      },
      1,
    ),
});

export const PUMP_DIFFERENTIAL_PRESSURE: Check = check({
  id: 'pump.differential-pressure',
  severity: 'error',
  title: 'pressure difference above what the pump stands',
  compares: 'the pressure that the pump adds in each case with the greatest on its data sheet',
  why: 'Valves and plunger are not made for it: they leak or break.',
  mend: 'Hang the pump higher, take another pump, or lower the tubing pressure.',
  source: 'the pump’s data sheet',
  example: { lift: 'linear', fails: { [DIFFERENCE]: '90 bar' }, at: DIFFERENCE },
  when: [LINEAR, present(DIFFERENCE)],
  needs: { pressure: value('lift.differential_pressure'), most: entry(DIFFERENCE) },
  run: ({ pressure, most }, context) =>
    atMost(context, {
      key: DIFFERENCE,
      kind: 'pressure_difference',
      number: pressure,
      limit: most,
      says: (own, allowed) =>
        `In the case '${context.caseName}' the pump adds ${own}, more than the ${allowed} that it stands. Take another pump, or hang it higher.`,
    }),
});

export const PUMP_THRUST: Check = check({
  id: 'pump.thrust',
  severity: 'error',
  title: 'the load is more than the motor pushes',
  compares: 'the force on the plunger in the heavier stroke of each case with the thrust of the motor',
  why: 'The motor stalls in mid-stroke, or lifts with a current that it does not stand for long.',
  mend: 'Take a smaller plunger or a stronger motor, or start on a lighter kill fluid.',
  source: `balance of forces on the plunger; ${SHEET}`,
  example: { lift: 'linear', fails: { [THRUST]: '15 kN' }, at: THRUST },
  when: [LINEAR],
  needs: { load: value('pump.load'), returning: value('pump.return_load'), thrust: entry(THRUST) },
  run: ({ load, returning, thrust }, context) =>
    overloaded(
      context,
      {
        key: THRUST,
        does: 'The motor must push',
        demand: { number: Math.max(load, returning), kind: 'force' },
        rating: { number: thrust, kind: 'force' },
        ratingIs: 'that it is rated',
        mend: 'Take a smaller plunger or a stronger motor.',
      },
      1,
    ),
});

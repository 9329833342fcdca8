import { absent, LINEAR, NO_WORDS, ROTARY } from '../conditions.ts';
import {
  type Condition,
  declareValue,
  entry,
  entryOr,
  method,
  text,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';
import { dischargePressure, SYSTEM } from '../lift/system.ts';
import { circleArea, GRAVITY, GRAVITY_SOURCE } from '../physics.ts';

const TRIP = 'setpoints.protection.overload.trip';
const TRIP_ACTS: Condition = { path: 'setpoints.protection.overload.enabled', isNot: NO_WORDS };
const MACHINE = { thrust: entry('equipment.motor.thrust'), rated: entry('equipment.motor.current') };
const PROPORTIONAL = 'permanent-magnet machine: force in proportion to current, any machines text';

const PLUNGER_UNDER_PRESSURE = {
  thrust: value('motor.greatest_thrust'),
  friction: entry('equipment.pump.friction_force'),
  area: value('pump.plunger_area'),
};

export const CLOSED_VALVE: readonly ValueDeclaration[] = [
  valueBy('motor.greatest_thrust', 'thrust before the overload trip or the drive’s limit stops the motor', 'force', [
    method({
      when: [LINEAR, TRIP_ACTS, { path: TRIP, present: true }],
      formula: 'thrust·min(trip, drive’s limit at the motor side)/I_r',
      source: PROPORTIONAL,
      inputs: { ...MACHINE, trip: value('overload.trip_at_motor'), most: value('drive.current_limit_at_motor') },
      compute: ({ thrust, rated, trip, most }) => (thrust * Math.min(trip, most)) / rated,
    }),
    ...[absent(TRIP), { path: 'setpoints.protection.overload.enabled', is: NO_WORDS } as const].map((untripped) =>
      method({
        when: [LINEAR, untripped],
        formula: 'thrust·drive’s limit at the motor side/I_r',
        source: PROPORTIONAL,
        inputs: { ...MACHINE, most: value('drive.current_limit_at_motor') },
        compute: ({ thrust, rated, most }) => (thrust * most) / rated,
      }),
    ),
  ]),
  valueBy('pump.closed_valve_pressure', 'pressure at the pump against a closed valve', 'pressure', [
    method({
      when: [LINEAR],
      formula: 'p_static + (greatest thrust − friction)/A; A − A_rod if double acting',
      source: 'balance of forces on the plunger',
      inputs: {
        ...PLUNGER_UNDER_PRESSURE,
        pressure: value('intake.static_pressure'),
        acting: text('equipment.pump.acting', 'single'),
        rod: entryOr('equipment.pump.rod_diameter', 0, 'no rod through the working chamber where none is entered'),
      },
      compute: ({ thrust, friction, area: plunger, pressure, acting, rod }) =>
        pressure + Math.max(0, thrust - friction) / (acting === 'double' ? plunger - circleArea(rod) : plunger),
    }),
    method({
      when: [ROTARY],
      formula: 'p_static + ρ·g·H(0) at max_frequency',
      source: GRAVITY_SOURCE,
      inputs: { rise: value('pump.shut_off_pressure'), pressure: value('intake.static_pressure') },
      compute: ({ rise, pressure }) => pressure + rise,
    }),
  ]),
  declareValue({
    id: 'pump.closed_valve_wellhead_pressure',
    title: 'pressure at the wellhead against a closed valve',
    kind: 'pressure',
    formula: 'pressure at the pump − ρ·g·tvd_intake',
    source: GRAVITY_SOURCE,
    inputs: {
      pressure: value('pump.closed_valve_pressure'),
      density: value('fluid.liquid_density'),
      depth: value('well.intake_tvd'),
    },
    compute: ({ pressure, density, depth }) => pressure - density * GRAVITY * depth,
  }),
  valueBy('intake.lowest_lifted_pressure', 'intake pressure from which the pump can still lift', 'pressure', [
    method({
      when: [LINEAR],
      formula: 'p_tubing + ρ·g·tvd_intake + friction in the tubing − (greatest thrust − friction force)/A',
      source: 'balance of forces on the plunger',
      // The rate by displacement: that of the case may rest on the trip that this bounds.
      inputs: {
        ...SYSTEM,
        ...PLUNGER_UNDER_PRESSURE,
        displacement: value('pump.displacement'),
        efficiency: entry('equipment.pump.volumetric_efficiency'),
      },
      compute: ({ thrust, friction, area: plunger, displacement, efficiency, ...system }) =>
        dischargePressure(system, displacement * efficiency) - (thrust - friction) / plunger,
    }),
    method({
      when: [ROTARY],
      formula: 'p_tubing + ρ·g·tvd_intake − ρ·g·H(0)',
      source: GRAVITY_SOURCE,
      inputs: {
        head: value('pump.shut_off_head'),
        density: value('fluid.liquid_density'),
        tubing: entry('well.wellhead.tubing_pressure', 'tubing_pressure'),
        depth: value('well.intake_tvd'),
      },
      compute: ({ head, density, tubing, depth }) => tubing + density * GRAVITY * (depth - head),
    }),
  ]),
];

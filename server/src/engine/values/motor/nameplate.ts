import { LINEAR, ROTARY } from '../conditions.ts';
import { declareValue, entry, method, type ValueDeclaration, valueBy } from '../declare.ts';
import { ROOT3 } from '../physics.ts';

export const NAMEPLATE: readonly ValueDeclaration[] = [
  declareValue({
    id: 'motor.nameplate_power',
    title: 'shaft power that voltage, current, power factor and efficiency of the nameplate give',
    kind: 'power',
    formula: '√3·V_r·I_r·pf_r·η',
    source: 'definition of efficiency',
    inputs: {
      voltage: entry('equipment.motor.voltage'),
      current: entry('equipment.motor.current'),
      factor: entry('equipment.motor.power_factor'),
      efficiency: entry('equipment.motor.efficiency'),
    },
    compute: ({ voltage, current, factor, efficiency }) => ROOT3 * voltage * current * factor * efficiency,
  }),
  valueBy('motor.rated_power', 'power that the nameplate states', 'power', [
    method({
      when: [ROTARY],
      formula: 'as entered',
      source: 'the entry itself',
      inputs: { power: entry('equipment.motor.power') },
      compute: ({ power }) => power,
    }),
    method({
      when: [LINEAR],
      formula: 'thrust × speed',
      source: 'definition',
      inputs: { thrust: entry('equipment.motor.thrust'), speed: entry('equipment.motor.speed') },
      compute: ({ thrust, speed }) => thrust * speed,
    }),
  ]),
];

import { isPresent, text } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const PUMP = 'equipment.pump';
const MEND = 'Refer to the data sheet of the pump that is installed, or correct the lift.';

export const PUMP_WRONG_TYPE: Check = check({
  id: 'pump.wrong-type',
  severity: 'error',
  title: 'pump that does not belong to the lift',
  compares: 'what the data sheet of the pump tells, a plunger or stages with their curve, with the lift',
  why: 'A plunger pump has no curve, nor a centrifugal pump a plunger: neither rate nor load of any case is known.',
  mend: MEND,
  source: 'the document format',
  example: { lift: 'rotary', fails: { [`${PUMP}.datasheet`]: 'equipment/plunger-44.yaml' }, at: PUMP },
  needs: {
    lift: text('lift'),
    plunger: isPresent(`${PUMP}.plunger_diameter`),
    stages: isPresent(`${PUMP}.stages`),
    curve: isPresent(`${PUMP}.curve`),
  },
  run: ({ lift, plunger, stages, curve }) => {
    const isLinear = lift === 'linear';
    const turns = stages || curve;
    // A sheet with something of both is only untidy as long as what the lift needs is there.
    const isWrong = isLinear ? turns && !plunger : plunger && !turns;
    if (!isWrong) return undefined;
    return {
      key: PUMP,
      message: `The lift is ${lift} and the data sheet is that of a ${isLinear ? 'centrifugal' : 'plunger'} pump: they do not go together. ${MEND}`,
      related: [{ key: 'lift', message: 'the lift' }],
      // With the motor against the lift too, it is the lift that is wrong.
      follows: ['motor.wrong-type'],
    };
  },
});

import { text } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const TYPE = 'equipment.motor.type';
const LINEAR_TYPE = 'linear_permanent_magnet';

export const WRONG_TYPE: Check = check({
  id: 'motor.wrong-type',
  severity: 'error',
  title: 'motor that does not belong to the lift',
  compares: 'the type of the motor with the lift of the installation',
  why:
    'A linear motor cannot turn a centrifugal pump, nor a rotary one move a plunger: one of the two sheets is ' +
    'wrong.',
  mend: 'Refer to the data sheet of the motor that is installed, or correct the lift.',
  source: 'the document format',
  example: { lift: 'linear', fails: { [TYPE]: 'induction' }, at: TYPE },
  needs: { type: text(TYPE), lift: text('lift') },
  run: ({ type, lift }) => {
    if ((type === LINEAR_TYPE) === (lift === 'linear')) return undefined;
    const words = type.replaceAll('_', ' ');
    return {
      key: TYPE,
      message: `The lift is ${lift} and the motor is of the type ${words}: they do not go together. ${WRONG_TYPE.mend}`,
      related: [{ key: 'lift', message: 'the lift' }],
    };
  },
});

import { listed } from '../../text/words.ts';
import { type Check, check } from '../declare.ts';
import { itemsOf } from '../slots.ts';

const SERIAL = 'equipment.motor.serial';

export const NAMEPLATE_SERIAL_MISSING: Check = check({
  id: 'nameplate.serial-missing',
  severity: 'note',
  title: 'equipment without a serial number',
  compares: 'whether each piece of equipment has a serial number',
  why: 'Only the serial number tells on site that the item on the truck is the one that was checked.',
  mend: 'Enter the serial number from the plate.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [SERIAL]: null }, at: SERIAL },
  needs: {},
  run: (_, context) => {
    const { evaluation } = context;
    const bare = itemsOf(evaluation).filter(({ key }) => evaluation.locate(`${key}.serial`) === undefined);
    const [first] = bare;
    if (first === undefined) return undefined;
    return {
      key: `${first.key}.serial`,
      message: `No serial number is entered for ${listed(bare.map(({ title }) => title))}. Enter it from the plate.`,
    };
  },
});

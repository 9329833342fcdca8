import type { Sharing } from '../../links/fleet.ts';
import type { Fact } from '../../links/well-facts.ts';
import { foundInFile } from '../declare.ts';
import { type AcrossCheck, elsewhere, wellsOf } from './declare.ts';

export const DUPLICATE_SERIAL: AcrossCheck = {
  check: foundInFile({
    id: 'identity.duplicate-serial',
    severity: 'error',
    title: 'one serial number in two wells',
    compares: 'the serial numbers of this well with those of the same kind of equipment in the other installations',
    why: 'One piece of equipment hangs in one well. One of the two files was copied, and its nameplate may be wrong too.',
    mend: 'Read the serial number from the nameplate and enter it.',
    source: 'the document format',
    example: {
      lift: 'linear',
      fails: { 'equipment.pump.serial': 'PL-7' },
      beside: {
        'neighbour.yaml':
          'document: installation/1\nsite: { well: NEIGHBOUR }\nlift: linear\nequipment: { pump: { serial: PL-7 } }\noperation: { cases: [] }\n',
      },
      at: 'equipment.pump.serial',
    },
  }),
  compare: (own, { sameSerial }) => {
    if (own.serials.length === 0) return { lacks: ['equipment.motor.serial', 'equipment.pump.serial'] };
    return sameSerial.map(({ serial, sharing }) => ({
      at: serial,
      message: `The serial number ${serial.written} also stands in ${wellsOf(sharing)}. Read it from the nameplate.`,
      related: related(serial, sharing),
    }));
  },
};

function related({ value }: Fact, { first }: Sharing) {
  return first.flatMap((other) => {
    const same = other.serials.find((each) => each.value === value);
    return same === undefined ? [] : [elsewhere(other, same, `the same serial number in ${other.well.written}`)];
  });
}

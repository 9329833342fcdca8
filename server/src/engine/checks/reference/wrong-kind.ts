import { type Check, foundInReading } from '../declare.ts';

export const WRONG_KIND: Check = foundInReading(
  {
    id: 'reference.wrong-kind',
    severity: 'error',
    title: 'reference to a document of another kind',
    compares: 'the kind of the document that a reference leads to with the kind due there',
    why: 'A motor’s sheet behind a pump gives keys that mean something else.',
    mend: 'Refer to a document of the kind that is due.',
    source: 'the document format',
    example: {
      lift: 'linear',
      fails: { 'equipment.pump.datasheet': 'equipment/linear-24.yaml' },
      at: 'equipment.pump.datasheet',
    },
  },
  ['installation', 'readings'],
);

import { type Check, foundInReading } from '../declare.ts';

export const NOT_FOUND: Check = foundInReading(
  {
    id: 'reference.not-found',
    severity: 'error',
    title: 'reference to a file that is not there',
    compares: 'the path of each reference with the files at hand',
    why: 'Without the data sheet most checks of that item cannot run.',
    mend: 'Check the path; it counts from the folder of the file that makes the reference.',
    source: 'the document format',
    example: {
      lift: 'linear',
      fails: { 'equipment.pump.datasheet': 'equipment/plunger-45.yaml' },
      at: 'equipment.pump.datasheet',
    },
  },
  ['installation', 'readings'],
);

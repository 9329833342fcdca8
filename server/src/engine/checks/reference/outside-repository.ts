import { type Check, foundInReading } from '../declare.ts';

export const OUTSIDE_REPOSITORY: Check = foundInReading(
  {
    id: 'reference.outside-repository',
    severity: 'error',
    title: 'reference that leaves the repository',
    compares: 'the path of each reference with the root of the repository',
    why: 'What lies outside is not under review, and is not there on another machine.',
    mend: 'Copy the document into the repository and refer to that.',
    source: 'the document format',
    example: {
      lift: 'linear',
      fails: { 'equipment.pump.datasheet': '../../../plunger-44.yaml' },
      at: 'equipment.pump.datasheet',
    },
  },
  ['installation', 'readings'],
);

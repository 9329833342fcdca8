import { type Check, foundInReading } from '../declare.ts';

export const CIRCULAR: Check = foundInReading(
  {
    id: 'reference.circular',
    severity: 'error',
    title: 'document that refers to itself',
    compares: 'the path of a reference with that of the document that makes it',
    why: 'A document cannot be its own data sheet. Data sheets refer to nothing, so no longer circle exists.',
    mend: 'Name the document that is meant.',
    source: 'the document format',
    example: {
      lift: 'linear',
      fails: { 'equipment.pump.datasheet': 'linear.yaml' },
      at: 'equipment.pump.datasheet',
    },
  },
  ['installation', 'readings'],
);

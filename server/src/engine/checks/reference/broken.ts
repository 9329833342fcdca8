import { type Check, foundInReading } from '../declare.ts';

export const BROKEN: Check = foundInReading(
  {
    id: 'reference.broken',
    severity: 'error',
    title: 'data sheet with errors of its own',
    compares: 'whether the document that a reference leads to can be read without an error',
    why: 'From a broken sheet nothing is read: half of a nameplate is worse than none. What depends on it does not run.',
    mend: 'Mend the data sheet; its own findings say where.',
    source: 'the document format',
    example: {
      lift: 'linear',
      fails: { 'equipment.pump.datasheet': 'equipment/broken.yaml' },
      beside: { 'equipment/broken.yaml': 'document: pump/1\nname: an example\nstages: many\n' },
      at: 'equipment.pump.datasheet',
    },
  },
  ['installation', 'readings'],
);

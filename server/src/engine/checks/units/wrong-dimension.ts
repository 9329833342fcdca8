import { type Check, foundInReading } from '../declare.ts';

export const WRONG_DIMENSION: Check = foundInReading({
  id: 'units.wrong-dimension',
  severity: 'error',
  title: 'unit of another quantity',
  compares: 'the dimension of each unit with that due at its place',
  why:
    'A voltage where a current is due is a slip of the line or of the unit; either way the number is not what ' +
    'the key says.',
  mend: 'Write the quantity that the key asks for, in one of its units.',
  source: 'the document format',
  example: {
    failing: 'document: cable/1\nname: an example\nvoltage_class: 3 «bar»\n',
    passing: 'document: cable/1\nname: an example\nvoltage_class: 3 kV\n',
    at: 'voltage_class',
  },
});

import { type Check, foundInReading } from '../declare.ts';

export const UNKNOWN: Check = foundInReading({
  id: 'units.unknown',
  severity: 'error',
  title: 'unit that is not known',
  compares: 'each unit with those of the trade, capital and small letters told apart',
  why: 'A unit that is misspelt may be another unit: mohm and Mohm are nine orders apart.',
  mend: 'Take one of the spellings that the message offers.',
  source: 'the document format',
  example: {
    failing: 'document: gauge/1\nname: an example\nlength: 2 «mtr»\n',
    passing: 'document: gauge/1\nname: an example\nlength: 2 m\n',
    at: 'length',
  },
});

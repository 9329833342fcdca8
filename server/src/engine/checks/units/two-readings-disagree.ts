import { type Check, foundInReading } from '../declare.ts';

export const TWO_READINGS_DISAGREE: Check = foundInReading({
  id: 'units.two-readings-disagree',
  severity: 'error',
  title: 'two readings of one quantity that disagree',
  compares: 'the two numbers of a quantity that is written in two units, each converted to the other',
  why: 'One of them is wrong, and which cannot be known. The second reading is there to catch just that.',
  mend: 'Correct one of the two; each must lie within half a unit of the last digit of the other.',
  source: 'the document format',
  example: {
    failing: 'document: gauge/1\nname: an example\nlength: «2 m = 9 ft»\n',
    passing: 'document: gauge/1\nname: an example\nlength: 2 m = 6.56 ft\n',
    at: 'length',
  },
});

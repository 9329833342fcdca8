import { type Check, foundInReading } from '../declare.ts';

export const NOT_RUN: Check = foundInReading({
  id: 'document.not-run',
  severity: 'note',
  title: 'checks that could not run',
  compares: 'the number of checks that lacked an entry with none',
  why: 'A check that did not run has found nothing, which is not the same as having passed.',
  mend: 'Enter what the note names; it is what most of the checks lack.',
  source: 'the document format',
  example: {
    failing:
      '«document: installation/1»\nsite: { well: W-1 }\nlift: linear\nequipment: {}\noperation: { cases: [ { name: ' +
      'target, intake: flowing } ] }\n',
    passing: 'document: cable/1\nname: an example\n',
    at: '',
  },
});

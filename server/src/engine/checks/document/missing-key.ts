import { type Check, foundInReading } from '../declare.ts';

export const MISSING_KEY: Check = foundInReading({
  id: 'document.missing-key',
  severity: 'error',
  title: 'key that must be there',
  compares: 'the keys of each group with those that it cannot do without',
  why: 'Without it the document or the row cannot be told from others, and nothing can be checked.',
  mend: 'Add the key.',
  source: 'the document format',
  example: {
    failing: '«document»: cable/1\nconductor: 16 mm2\n',
    passing: 'document: cable/1\nname: an example\n',
    at: 'document',
  },
});

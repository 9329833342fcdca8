import { type Check, foundInReading } from '../declare.ts';

export const NOT_TEXT: Check = foundInReading({
  id: 'document.not-text',
  severity: 'error',
  title: 'no plain text',
  compares: 'the characters of the file with those of a UTF-8 text',
  why: 'A file in another encoding, or a binary one under a wrong name, is read as something that nobody wrote.',
  mend: 'Save the file as UTF-8 text.',
  source: 'the document format; Unicode, UTF-8',
  example: {
    failing: 'document: cable/1\nname: an example\nshape: «»flat\n',
    passing: 'document: cable/1\nname: an example\nshape: flat\n',
    at: '',
  },
});

import { type Check, foundInReading } from '../declare.ts';

export const UNMARKED: Check = foundInReading({
  id: 'document.unmarked',
  severity: 'warning',
  title: 'document that does not say what it is',
  compares: 'the first key and the top keys of a file with those of our documents',
  why: 'A file that does not say what it is is left alone: nobody would notice that it is not checked.',
  mend: 'Begin the file with the key document, such as document: installation/1.',
  source: 'the document format',
  example: {
    failing: '«documnet»: cable/1\nname: an example\n',
    passing: 'document: cable/1\nname: an example\n',
    at: 'documnet',
  },
});

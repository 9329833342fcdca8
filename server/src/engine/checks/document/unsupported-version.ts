import { type Check, foundInReading } from '../declare.ts';

export const UNSUPPORTED_VERSION: Check = foundInReading({
  id: 'document.unsupported-version',
  severity: 'error',
  title: 'version that is not known',
  compares: 'the version of the document with that which this program knows',
  why: 'Keys may mean something else in another version; what is not understood is not checked half.',
  mend: 'Use a Setproof that knows the version, or write the document in the version known here.',
  source: 'the document format',
  example: {
    failing: 'document: «cable/9»\nname: an example\n',
    passing: 'document: cable/1\nname: an example\n',
    at: 'document',
  },
});

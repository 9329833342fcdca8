import { type Check, foundInReading } from '../declare.ts';

export const TOO_LARGE: Check = foundInReading({
  id: 'document.too-large',
  severity: 'error',
  title: 'document too large to be read whole',
  compares: 'size, depth and number of entries, of operating cases and of tolerances with what a document may cost',
  why: 'No document that is meant comes near these limits: the file is broken, or hostile.',
  mend: 'Split the file, move what is no entry of the document out of it, or keep the cases and tolerances that decide something.',
  source: 'the document format',
  example: {
    failing: `document: cable/1\nname: an example\nx_deep: ${'['.repeat(63)}«[»${']'.repeat(64)}\n`,
    passing: 'document: cable/1\nname: an example\nx_deep: [[[]]]\n',
    at: `x_deep${'[0]'.repeat(62)}`,
  },
});

import { type Check, foundInReading } from '../declare.ts';

export const TOO_LARGE: Check = foundInReading({
  id: 'document.too-large',
  severity: 'error',
  title: 'document beyond all measure',
  compares: 'size, depth and number of entries with what a document may cost',
  why: 'No document of ours comes near these limits: the file is broken, or hostile.',
  mend: 'Split the file, or move what is no entry of the document out of it.',
  source: 'the document format',
  example: {
    failing: `document: cable/1\nname: an example\nx_deep: ${'['.repeat(63)}«[»${']'.repeat(64)}\n`,
    passing: 'document: cable/1\nname: an example\nx_deep: [[[]]]\n',
    at: `x_deep${'[0]'.repeat(62)}`,
  },
});

import { type Check, foundInReading } from '../declare.ts';

export const ALIAS_LIMIT: Check = foundInReading({
  id: 'document.alias-limit',
  severity: 'error',
  title: 'too many aliases',
  compares: 'the anchors and aliases of a document with what a document may cost',
  why: 'An alias that contains itself never ends, and aliases of aliases grow beyond any memory: broken or hostile.',
  mend: 'Write the values out instead of repeating them by alias.',
  source: 'the document format',
  example: {
    failing: 'document: gauge/1\nname: an example\nx_round: &round { again: «*round» }\n',
    passing: 'document: gauge/1\nname: an example\nx_base: &base 1 s\nx_round: *base\n',
    at: 'x_round.again',
  },
});

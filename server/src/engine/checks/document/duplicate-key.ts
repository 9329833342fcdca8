import { type Check, foundInReading } from '../declare.ts';

export const DUPLICATE_KEY: Check = foundInReading({
  id: 'document.duplicate-key',
  severity: 'error',
  title: 'key that stands twice',
  compares: 'the keys of each group with each other',
  why: 'Of two entries of one name a reader takes the first and a program the last. Which was meant cannot be known.',
  mend: 'Remove one of the two.',
  source: 'YAML 1.2, and the document format, which uses a part of it',
  example: {
    failing: 'document: gauge/1\nname: an example\nwarm_up: 30 s\n«warm_up»: 60 s\n',
    passing: 'document: gauge/1\nname: an example\nwarm_up: 30 s\n',
    at: 'warm_up',
  },
});

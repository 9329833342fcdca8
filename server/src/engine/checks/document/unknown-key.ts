import { type Check, foundInReading } from '../declare.ts';

export const UNKNOWN_KEY: Check = foundInReading({
  id: 'document.unknown-key',
  severity: 'error',
  title: 'key that is not known',
  compares: 'each key with those that the format knows at its place',
  why: 'A misspelt trip is no trip: the entry is there for the eye and nothing acts on it.',
  mend: 'Take the nearest known key, or begin a key of your own with x_.',
  source: 'the document format',
  example: {
    failing: 'document: cable/1\nname: an example\n«conducter»: 16 mm2\n',
    passing: 'document: cable/1\nname: an example\nconductor: 16 mm2\n',
    at: 'conducter',
  },
});

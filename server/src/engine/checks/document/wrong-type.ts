import { type Check, foundInReading } from '../declare.ts';

export const WRONG_TYPE: Check = foundInReading({
  id: 'document.wrong-type',
  severity: 'error',
  title: 'value of another type',
  compares: 'each value with the type due at its place: a quantity, a text, one of a few words, a list, a group',
  why: 'What cannot be read as what it should be is not read at all, and everything that rests on it stays unchecked.',
  mend: 'Write a value of the type that the message names.',
  source: 'the document format',
  example: {
    failing: 'document: cable/1\nname: an example\nshape: «oval»\n',
    passing: 'document: cable/1\nname: an example\nshape: flat\n',
    at: 'shape',
  },
});

import { type Check, foundInReading } from '../declare.ts';

export const SYNTAX: Check = foundInReading({
  id: 'document.syntax',
  severity: 'error',
  title: 'line that is not YAML',
  compares: 'the text with the rules of YAML, and with the traps that YAML sets quietly',
  why:
    'A line that is read otherwise than it looks is worse than one that is not read: a trip may be lost ' +
    'without a word.',
  mend: 'Mend the line as the message says; quote a text that has a colon, a bracket or a mark of YAML in it.',
  source: 'YAML 1.2, and the document format, which uses a part of it',
  example: {
    failing: 'document: cable/1\nname: an example\nshape: flat\n«conductor 16 mm2»\n',
    passing: 'document: cable/1\nname: an example\nshape: flat\nconductor: 16 mm2\n',
    at: '',
  },
});

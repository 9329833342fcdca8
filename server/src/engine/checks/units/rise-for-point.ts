import { type Check, foundInReading } from '../declare.ts';

export const RISE_FOR_POINT: Check = foundInReading({
  id: 'units.rise-for-point',
  severity: 'error',
  title: 'difference for a point on a scale',
  compares: 'temperatures and pressures with whether a point on a scale or a difference is due',
  why:
    'A rise of 50 degF is 28 K, a temperature of 50 degF is 10 degC: the same text, two readings. A difference ' +
    'of pressures has no reference.',
  mend: 'Write a difference in K, delta degC or delta degF, and a difference of pressures without (g) or (a).',
  source: 'the document format',
  example: {
    failing: 'document: motor/1\nname: an example\ntemperature_rise: «35 degC»\n',
    passing: 'document: motor/1\nname: an example\ntemperature_rise: 35 K\n',
    at: 'temperature_rise',
  },
});

import { type Check, foundInReading } from '../declare.ts';

export const IMPLAUSIBLE: Check = foundInReading({
  id: 'units.implausible',
  severity: 'error',
  title: 'quantity far outside of what is usual',
  compares:
    'each quantity with the range in which that entry lies in practice: outside it a warning; zero or less where the range is positive, a pressure below vacuum, or more than a factor of 1000 beyond the range an error, and nothing is worked out from the number',
  why: 'A number in the wrong unit looks like any other number. 1850 bar is usually psi, and 98 m usually degC.',
  mend: 'Check the number and its unit; the message names a unit in which the number would be usual.',
  source: 'common practice, no source: wide ranges, each beside its key in the schema',
  example: {
    failing: 'document: cable/1\nname: an example\nhandling_temperature_min: «-9 K»\n',
    passing: 'document: cable/1\nname: an example\nhandling_temperature_min: -9 degC\n',
    at: 'handling_temperature_min',
  },
});

import { type Check, foundInReading } from '../declare.ts';

export const REFERENCE_UNSTATED: Check = foundInReading(
  {
    id: 'units.reference-unstated',
    severity: 'note',
    title: 'pressure that is neither gauge nor absolute',
    compares: 'bare pressures with the convention of the file',
    why:
      'One atmosphere is a tenth of many an intake-pressure trip. A bare pressure is read as gauge, which may ' +
      'not be meant.',
    mend: 'State conventions.pressure once, or write bar(g) and bar(a).',
    source: 'the document format',
    example: {
      failing:
        'document: installation/1\nsite: { well: W-1 }\nlift: linear\nequipment: {}\nreservoir: { pressure: «78 bar» ' +
        '}\noperation: { cases: [ { name: target, intake: flowing } ] }\n',
      passing:
        'document: installation/1\nsite: { well: W-1 }\nlift: linear\nequipment: {}\nreservoir: { pressure: 78 bar(g) ' +
        '}\noperation: { cases: [ { name: target, intake: flowing } ] }\n',
      at: 'reservoir.pressure',
    },
  },
  ['installation'],
);

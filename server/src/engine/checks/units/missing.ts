import { type Check, foundInReading } from '../declare.ts';

export const MISSING: Check = foundInReading({
  id: 'units.missing',
  severity: 'error',
  title: 'number without a unit',
  compares: 'each number where a quantity is due with the rule that a quantity states its unit',
  why:
    'Half of the trade writes bar and feet, the other half psi and metres; a bare number is read by each as ' +
    'its own.',
  mend: 'Write the unit beside the number.',
  source: 'the document format',
  example: {
    failing: 'document: cable/1\nname: an example\nvoltage_class: «3»\n',
    passing: 'document: cable/1\nname: an example\nvoltage_class: 3 kV\n',
    at: 'voltage_class',
  },
});

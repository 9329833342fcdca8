import { type Check, foundInReading } from '../declare.ts';

export const THOUSANDS_SEPARATOR: Check = foundInReading({
  id: 'units.thousands-separator',
  severity: 'error',
  title: 'number with a comma or with its digits grouped',
  compares: 'each number with the rule that digits are not grouped and decimals follow a point',
  why:
    '1,850 is eighteen hundred and fifty to one reader and not quite two to another; both are right in their ' +
    'country.',
  mend: 'Write the digits without separators and a point before the decimals.',
  source: 'the document format',
  example: {
    failing: "document: cable/1\nname: an example\nvoltage_class: '«1,850» V'\n",
    passing: 'document: cable/1\nname: an example\nvoltage_class: 1850 V\n',
    at: 'voltage_class',
  },
});

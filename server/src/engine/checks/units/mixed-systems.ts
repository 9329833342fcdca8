import { type Check, foundInReading } from '../declare.ts';

export const MIXED_SYSTEMS: Check = foundInReading({
  id: 'units.mixed-systems',
  severity: 'note',
  title: 'one quantity in two systems of units',
  compares: 'the units in which one kind of quantity is written across the file',
  why: 'Where bar and psi stand side by side, one is sooner or later read for the other.',
  mend: 'Write the quantity in one system throughout the file.',
  source: 'common practice, no source',
  example: {
    failing: 'document: gauge/1\nname: an example\nmass: 14 kg\nouter_diameter: 98 mm\nlength: «2 ft»\n',
    passing: 'document: gauge/1\nname: an example\nmass: 14 kg\nouter_diameter: 98 mm\nlength: 0.6 m\n',
    at: 'length',
  },
});

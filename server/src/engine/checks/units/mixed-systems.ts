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
    failing: 'document: pump/1\nname: an example\nmass: 140 kg\nouter_diameter: 98 mm\nplunger_diameter: «1.75 in»\n',
    passing: 'document: pump/1\nname: an example\nmass: 140 kg\nouter_diameter: 98 mm\nplunger_diameter: 44.5 mm\n',
    at: 'plunger_diameter',
  },
});

import { type Check, foundInVisit } from '../declare.ts';

export const OTHER_FINGERPRINT: Check = foundInVisit({
  id: 'readings.other-fingerprint',
  severity: 'warning',
  title: 'checklist printed from another state of the file',
  compares:
    'the fingerprint on the checklist with that of the installation, its data sheets and the policy as they are now',
  why: 'The crew worked by other numbers than those that stand in the repository now.',
  mend: 'See what has changed since the checklist was printed, and whether it concerns what was done. Then enter the present one.',
  source: 'the document format',
  example: {
    visit: 'linear',
    fails: { fingerprint: 'sha256:0000' },
    at: 'fingerprint',
  },
});

export const UNKNOWN_ITEM: Check = foundInVisit({
  id: 'readings.unknown-item',
  severity: 'error',
  title: 'reading of an item that is not on the checklist',
  compares: 'the item of each reading with the ids on the checklist of the installation',
  why: 'A reading under a name that nobody knows is judged by nothing.',
  mend: 'Write the id as it is printed beside the item. If the file has changed since, look where the item went.',
  source: 'the document format',
  example: {
    visit: 'linear',
    fails: { 'row inspection.motor.insulatoin': '{ value: 900 Mohm }' },
    at: 'row inspection.motor.insulatoin',
  },
});

export const ITEM_TWICE: Check = foundInVisit({
  id: 'readings.item-twice',
  severity: 'error',
  title: 'item that is answered twice',
  compares: 'the items of the readings with each other',
  why: 'Two answers to one question: nobody can tell which one holds.',
  mend: 'Keep the one that holds, and say in its note what the other was.',
  source: 'the document format',
  example: {
    visit: 'linear',
    fails: { 'row surface.earth_resistance twice': '{ value: 2 ohm }' },
    at: 'row surface.earth_resistance twice',
  },
});

export const VALUE_UNREADABLE: Check = foundInVisit({
  id: 'readings.value-unreadable',
  severity: 'error',
  title: 'reading that cannot be read as what is due',
  compares: 'each reading with the unit that its step asks for, and ticks with `yes` and `no`',
  why: 'What cannot be read as a number with a unit of that kind is judged by nothing.',
  mend: 'Write the number with its unit, a point before the decimals; remarks belong into `note`.',
  source: 'the document format',
  example: {
    visit: 'linear',
    fails: { 'row surface.earth_resistance': '{ value: good }' },
    at: 'row surface.earth_resistance',
  },
});

export const OTHER_SERIAL: Check = foundInVisit({
  id: 'readings.other-serial',
  severity: 'error',
  title: 'another item than the one in the file',
  compares: 'the serial numbers as read with those in the installation, in letters and digits',
  why: 'Everything was computed and tested for one item, and another one went into the well.',
  mend: 'Read the plate again. If it is another item, compare its plate with the data sheet and bring its number into the file.',
  source: 'the installation; a warning where the row has a note',
  example: {
    visit: 'linear',
    fails: { 'row inspection.motor.serial': '{ value: ZZ-9999 }' },
    at: 'row inspection.motor.serial',
  },
});

export const DATE: Check = foundInVisit({
  id: 'readings.date',
  severity: 'warning',
  title: 'date that does not fit',
  compares:
    'the day of the visit and the times of the readings with today, with the revision of the installation and with ' +
    'each other; days until which instruments are calibrated with how a day is written',
  why: 'A wrong date puts the readings before or after something that they do not belong to.',
  mend: 'Write year, month and day, such as 2026-03-20, with the time behind a T where there is one: 2026-03-20T09:40.',
  source: 'ISO 8601',
  example: {
    visit: 'linear',
    fails: { 'visit.date': '2099-01-01' },
    at: 'visit.date',
  },
});

export const CALIBRATION: Check = foundInVisit({
  id: 'readings.calibration',
  severity: 'warning',
  title: 'instrument out of calibration on the day of the visit',
  compares: 'the day until which each instrument is calibrated with the day of the visit',
  why: 'What was read with it proves nothing to anybody who asks.',
  mend: 'Have it calibrated, and read again what depends on it if it is found off.',
  source: 'common practice, no source',
  example: {
    visit: 'linear',
    fails: { 'row before_leaving.instruments.ohmmeter': '{ values: [M-11, 2026-01-31] }' },
    at: 'row before_leaving.instruments.ohmmeter',
  },
});

export const AS_LEFT_DIFFERS: Check = foundInVisit({
  id: 'readings.as-left-differs',
  severity: 'warning',
  title: 'setting left other than planned',
  compares: 'each setting as it was left with the one that the installation plans',
  why: 'The file no longer says how the well is set, and the next visit is prepared from the file.',
  mend: 'Bring it into the installation, or set the well as planned. A note at the item says why it was left so.',
  source: 'the installation; a note where the row of that setting has a note',
  example: {
    visit: 'linear',
    fails: { 'as_left.start.override': '8 h' },
    at: 'as_left.start.override',
  },
});

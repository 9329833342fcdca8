import { type Check, foundInVisit } from '../declare.ts';

export const OUT_OF_LIMIT: Check = foundInVisit({
  id: 'readings.out-of-limit',
  severity: 'error',
  title: 'reading outside the limit of its step',
  compares: 'each reading with the limit that the checklist gives for it',
  why: 'The limit is what the data sheet, the computation or the company asks for before the work may go on.',
  mend: 'Measure again; if it stays, the item, the joint or the file is not what it should be. Do not go on before it is known.',
  source: 'the checklist of the installation, which names the source of each limit',
  example: {
    visit: 'linear',
    fails: { 'row surface.earth_resistance': '{ value: 12 ohm }' },
    at: 'row surface.earth_resistance',
  },
});

export const RUNNING_DIFFERS: Check = foundInVisit({
  id: 'readings.running-differs',
  severity: 'warning',
  title: 'running reading outside the band that was expected',
  compares: 'frequency, currents, voltages, pressures, temperatures and rate with the bands printed for the case',
  why: 'The protections were set on the computed numbers. Where the well answers otherwise, they may not protect.',
  mend: 'Find out which entry is not as in the well: fluid, inflow, depth, tap. Bring it into the file, and check again.',
  source: 'the bands of the checklist (common practice, no source)',
  example: {
    visit: 'linear',
    fails: { 'row start.case.target.motor_current': '{ value: 25 A }' },
    at: 'row start.case.target.motor_current',
  },
});

export const HOLD_UNSIGNED: Check = foundInVisit({
  id: 'readings.hold-unsigned',
  severity: 'error',
  title: 'work went on past a hold point that nobody signed',
  compares: 'each hold point without a signature with the steps after it that were answered',
  why: 'At a hold point somebody answers for what stands before it. Without a name nobody did.',
  mend: 'Enter who released it and when, in `by` and `at`. If nobody did, stop, and go through what stands before it.',
  source: 'the checklist of the installation',
  example: {
    visit: 'linear',
    fails: { 'row start.hold': null },
    at: 'readings',
  },
});

export const HOLD_LATE: Check = foundInVisit({
  id: 'readings.hold-late',
  severity: 'error',
  title: 'hold point signed after the work that it holds',
  compares: 'the time of each signature with the times of the readings after it',
  why: 'A signature given afterwards has held nothing back.',
  mend: 'Put the time right if it was mistyped. If it is right, write down why the work went on, and who knew.',
  source: 'the checklist of the installation; a warning where one of the times has no date',
  example: {
    visit: 'linear',
    fails: {
      'row start.hold': '{ by: person in charge, at: 2026-05-28T18:00 }',
      'row start.case.target.frequency': '{ at: 2026-05-28T16:00 }',
    },
    at: 'row start.hold',
  },
});

export const MISSING: Check = foundInVisit({
  id: 'readings.missing',
  severity: 'warning',
  title: 'items of the checklist without an answer',
  compares: 'the items of the checklist with those that the visit answers, cautions left out',
  why: 'What was not written down was not done, as far as anybody can tell later.',
  mend: 'Enter what was done; for what was not, a row with a note that says why.',
  source: 'the checklist; a note where only expected readings of cases and the log of the first day are open',
  example: {
    visit: 'linear',
    fails: { 'row inspection.motor.winding_resistance': null },
    at: 'readings',
  },
});

/**
 * Why a line of the table misses its goal, by profile. Shares of a start are of `node -e 0`, as timers inside the process
 * and a profile of twelve runs gave them.
 */
const FIRST_CALLS =
  'all of it is code that runs once, some two thousand functions each called for the first time. Without effect were ' +
  'other flags of V8 (no optimiser, a larger young generation, eager feedback) and leaving out the texts of the checks ' +
  '(a twentieth).';

const EVALUATION =
  'of a warm check a third is reading the file, and of the rest half goes into the checks and half into values and ' +
  'windows, which are worked out again in each corner of the stated tolerances.';

export const WHY = {
  warm: `${EVALUATION} The peer does not evaluate anything.`,
  sheet: `what rests on a sheet is nearly all of an installation: ${EVALUATION}`,
  check:
    'on top of `node -e 0` come Node’s own modules and the command line (0.2), reading scripts and code cache (0.2), ' +
    `declaring values, windows and checks (0.3), reading the well and its sheets (0.25), and checking (0.35): ${FIRST_CALLS}`,
  initialize:
    'the library of the protocol alone starts in about 1.5; the rest is reading scripts and declaring values, windows and ' +
    'checks, as for a check. Declaring after the answer would only move the wait to the first document.',
  open: `the first document meets code that never ran: ${FIRST_CALLS}`,
  key: EVALUATION,
  key95: EVALUATION,
  opens: `each of the documents is another well, read and checked whole: ${EVALUATION}`,
  memory: 'a bare Node takes 40 MB of it; what the rest is was not looked into.',
  completion: 'not looked into; the median is not measured.',
  html: `a cold check, and the checklist on top: ${FIRST_CALLS}`,
  pdf: 'a third is a cold check; of the rest nearly all is the library for PDF, a tenth of the whole its garbage.',
  fleet: `parsing is a small part of it: ${EVALUATION}`,
  growth: 'not looked into.',
};

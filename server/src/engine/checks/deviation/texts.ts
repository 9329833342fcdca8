import { type Check, foundInFile } from '../declare.ts';

const AGREED = 'the document format';
const PASSES = { deviations: '[]' };

/** A deviation as one line of YAML, for the examples. */
function deviation(check: string, rest: string): { readonly deviations: string } {
  return { deviations: `[ { check: ${check}, ${rest} } ]` };
}

export const DEVIATION_UNKNOWN_CHECK: Check = foundInFile({
  id: 'deviation.unknown-check',
  severity: 'error',
  title: 'deviation from a check that there is not',
  compares: 'the check that a deviation names with those that Setproof knows',
  why: 'A misspelt deviation accepts nothing, and who wrote it believes that it does.',
  mend: 'Write the id of the check as the finding shows it.',
  source: AGREED,
  example: {
    lift: 'linear',
    fails: deviation('tap.below-windw', 'reason: trial, approved_by: lead engineer, until: 2099-12-31'),
    passes: PASSES,
    at: 'deviations[0].check',
  },
});

export const DEVIATION_UNAPPROVED: Check = foundInFile({
  id: 'deviation.unapproved',
  severity: 'error',
  title: 'deviation without reason or approval',
  compares: 'whether a deviation gives its reason and who approved it',
  why: 'What nobody answers for is no deviation but a mistake that was silenced.',
  mend: "Enter 'reason' and 'approved_by'; until then the finding stays open.",
  source: AGREED,
  example: {
    lift: 'linear',
    fails: deviation('tap.thin-margin', 'reason: trial, until: 2099-12-31'),
    passes: PASSES,
    at: 'deviations[0].approved_by',
  },
});

export const DEVIATION_EXPIRED: Check = foundInFile({
  id: 'deviation.expired',
  severity: 'error',
  title: 'deviation that has run out',
  compares: 'the last day of a deviation with today; one without a last day never was in force',
  why: 'What was accepted for a time has to be mended or looked at anew when the time is over.',
  mend: "Mend what was accepted, or have it approved anew with a later day in 'until'.",
  source: AGREED,
  example: {
    lift: 'linear',
    fails: deviation('tap.thin-margin', 'reason: trial, approved_by: lead engineer, until: 2020-01-31'),
    passes: PASSES,
    at: 'deviations[0].until',
  },
});

export const DEVIATION_NOT_NEEDED: Check = foundInFile({
  id: 'deviation.not-needed',
  severity: 'note',
  title: 'deviation from a check that finds nothing',
  compares: 'each deviation in force with the findings that it is about',
  why: 'It would accept, unseen, what goes wrong later.',
  mend: 'Take it out.',
  source: AGREED,
  example: {
    lift: 'linear',
    fails: deviation('tap.thin-margin', 'reason: trial, approved_by: lead engineer, until: 2099-12-31'),
    passes: PASSES,
    at: 'deviations[0]',
  },
});

export const DEVIATION_CHECKS: readonly Check[] = [
  DEVIATION_UNKNOWN_CHECK,
  DEVIATION_UNAPPROVED,
  DEVIATION_EXPIRED,
  DEVIATION_NOT_NEEDED,
];

import { type Check, foundInFile } from '../declare.ts';

const AGREED = 'the document format';

export const POLICY_UNKNOWN_CHECK: Check = foundInFile(
  {
    id: 'policy.unknown-check',
    severity: 'error',
    title: 'policy for a check that there is not',
    compares: "the checks that a policy names under 'checks' and 'require' with those that Setproof knows",
    why: 'A misspelt check is neither softened, nor set aside, nor required, and who wrote it believes that it is.',
    mend: "Write the id of the check; 'setproof checks' lists them.",
    source: AGREED,
    example: {
      failing: 'document: policy/1\nchecks: { «tap.below-windw»: { severity: note } }\n',
      passing: 'document: policy/1\nchecks: { tap.below-window: { severity: warning } }\n',
      at: 'checks.tap.below-windw',
    },
  },
  ['policy'],
);

export const POLICY_UNKNOWN_LIMIT: Check = foundInFile(
  {
    id: 'policy.unknown-limit',
    severity: 'error',
    title: 'policy for a limit that there is not',
    compares: 'the limits that a policy sets with those that Setproof knows, and their dimensions',
    why: 'A misspelt limit changes nothing: the default holds, and who wrote it believes otherwise.',
    mend: 'Write the name of the limit, which is that of its check.',
    source: AGREED,
    example: {
      failing: 'document: policy/1\nlimits: { «tap.thin-margn»: 3 % }\n',
      passing: 'document: policy/1\nlimits: { tap.thin-margin: 3 % }\n',
      at: 'limits.tap.thin-margn',
    },
  },
  ['policy'],
);

export const POLICY_REQUIRED_NOT_RUN: Check = foundInFile({
  id: 'policy.required-not-run',
  severity: 'error',
  title: 'required check was not run',
  compares: 'the checks that the policy requires with those that could not be run on this file',
  why: 'The policy asks that this is known before the unit is set up, and it is not.',
  mend: 'Enter what is missing.',
  source: AGREED,
  example: {
    lift: 'linear',
    fails: { 'setpoints.transformer': null },
    beside: { 'setproof.policy.yaml': 'document: policy/1\nrequire: [tap.below-window]\n' },
    at: '',
  },
});

export const POLICY_CHECKS: readonly Check[] = [POLICY_UNKNOWN_CHECK, POLICY_UNKNOWN_LIMIT, POLICY_REQUIRED_NOT_RUN];

import type { NotRun, Run, Settled } from '../report.ts';
import { artifactOf, messageOf, type SarifContext } from './shared.ts';

const MOST_NAMED = 5;

/** What a reader must know beside the findings: what was not looked at, what was not run, what is settled. */
export function notificationsOf({ troubles, notRun, settled }: Run, context: SarifContext): readonly object[] {
  return [
    ...troubles.map((text) => ({ descriptor: { id: 'not-checked' }, level: 'error', message: messageOf(text) })),
    ...[...notRun].map(([check, told]) => notRunOf(check, told, context)),
    ...settled.map((each) => settledOf(each)),
  ];
}

function notRunOf(check: string, { files, path, missing }: NotRun, context: SarifContext) {
  const named = missing.slice(0, MOST_NAMED).join(', ');
  const more = missing.length > MOST_NAMED ? ` and ${missing.length - MOST_NAMED} more` : '';
  const where = files === 1 ? 'in one file; there' : `in ${files} files; in the first of them`;
  return {
    descriptor: { id: 'not-run' },
    associatedRule: { id: check, index: context.ruleIndex.get(check) },
    level: 'note',
    message: messageOf(`The check '${check}' was not run ${where} it lacks ${named}${more}.`),
    locations: [{ physicalLocation: { artifactLocation: artifactOf(path, context) } }],
  };
}

function settledOf({ file, key, check, case: inCase }: Settled) {
  const where = inCase === undefined ? `'${key}'` : `'${key}' in the case '${inCase}'`;
  return {
    descriptor: { id: 'settled' },
    level: 'note',
    message: messageOf(`${check} at ${where} of ${file} is settled; take it out of the list of accepted findings.`),
  };
}

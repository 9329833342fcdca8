import { type Check, capitalise, type Example, LIMITS } from '../../engine/index.ts';
import { limitText } from '../limit-text.ts';

/** A page of the documentation, by its path below `docs/checks/`. */
export interface Page {
  readonly path: string;
  readonly text: string;
}

const GENERATED = '<!-- Generated from the check’s own texts by `npm run pages`; do not edit. -->';
const DEFER = 'The maker’s manual, the site’s rules, local codes and licensed practice come before anything said here.';

/** A page for each check, and an index by subject. */
export function checkPages(catalogue: readonly Check[]): readonly Page[] {
  return [
    { path: 'README.md', text: `${indexPage(catalogue)}\n` },
    ...catalogue.map((check) => ({ path: `${check.id}.md`, text: `${checkPage(check)}\n` })),
  ];
}

function checkPage(check: Check): string {
  return joined([
    GENERATED,
    `# ${check.id}`,
    sentence(check.title),
    `Severity: ${check.severity}${check.foundBy === 'window' ? '; a bound of a setpoint’s window' : ''}.`,
    section('What it compares', sentence(check.compares)),
    section('Why it matters', check.why),
    section('How to mend it', check.mend),
    section('Source', sentence(check.source)),
    limitsOf(check.id),
    check.example === undefined ? undefined : section('Example', exampleText(check.example)),
    section('When it does not fit', ACCEPTING),
    `[All checks](README.md). ${DEFER}`,
  ]);
}

const ACCEPTING =
  'A finding that is accepted is recorded in the file under `deviations`, with the reason, who approved it and until ' +
  'when. A company sets a check softer, or aside with a reason, in its `setproof.policy.yaml`.';

function limitsOf(id: string): string | undefined {
  const limits = LIMITS.filter(({ name }) => name === id || name.startsWith(`${id}.`));
  if (limits.length === 0) return undefined;
  const rows = limits.map(({ name, title, kind, number, source }) => {
    return `| \`${name}\` | ${title} | ${limitText({ number, kind })} | ${source} |`;
  });
  const head = ['| name in the policy | limit on | default | source |', '|---|---|---|---|'];
  return section('Limits that a policy may set', [...head, ...rows].join('\n'));
}

function exampleText(example: Example): string {
  if ('failing' in example) {
    return joined([
      `Found at \`${example.at || 'the document'}\`:`,
      fenced(example.failing.replaceAll(/[«»]/g, '')),
      'Silent:',
      fenced(example.passing),
    ]);
  }
  const { fails, passes, at } = example;
  const place = 'visit' in example ? `a complete visit to a clean ${example.visit}` : `a clean ${example.lift}`;
  return joined([
    `In ${place} installation, found at \`${at}\` when these entries are so:`,
    fenced(editsText(fails)),
    passes === undefined ? 'Silent without them.' : joined(['Silent when they are so:', fenced(editsText(passes))]),
  ]);
}

function editsText(edits: Readonly<Record<string, string | null>>): string {
  return Object.entries(edits)
    .map(([key, text]) => (text === null ? `${key}  # taken out` : `${key}: ${text}`))
    .join('\n');
}

function indexPage(catalogue: readonly Check[]): string {
  const subjects = new Map<string, Check[]>();
  for (const check of catalogue) {
    const subject = check.id.split('.')[0] ?? '';
    subjects.set(subject, [...(subjects.get(subject) ?? []), check]);
  }
  const parts = [...subjects]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([subject, checks]) => subjectPart(subject, checks));
  return joined([GENERATED, '# Checks', `Setproof knows ${catalogue.length} checks. ${DEFER}`, ...parts]);
}

function subjectPart(subject: string, checks: readonly Check[]): string {
  const rows = checks.map(({ id, severity, title }) => `| [\`${id}\`](${id}.md) | ${severity} | ${title} |`);
  return section(subject, ['| check | severity | what is wrong |', '|---|---|---|', ...rows].join('\n'));
}

function section(title: string, text: string): string {
  return `## ${title}\n\n${text}`;
}

function fenced(text: string): string {
  return `\`\`\`yaml\n${text.trimEnd()}\n\`\`\``;
}

function sentence(text: string): string {
  const capital = capitalise(text);
  return /[.!?]$/.test(capital) ? capital : `${capital}.`;
}

function joined(parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined).join('\n\n');
}

import type { Checklist, Step } from '../../engine/index.ts';
import { escapeMarkdown as md } from '../markdown/escape.ts';
import { groupsOf, limitText, numberText, plannedText, revisionText, runs } from './words.ts';

/** The checklist as Markdown, for a pull request or a wiki: tasks with their limits, settings as a table. */
export function renderChecklistMarkdown(checklist: Checklist): string {
  const { title, revision, fingerprint, band, deferral, stages } = checklist;
  const parts = [
    `# ${md(title)}`,
    ...(band === undefined ? [] : [`> **${md(band)}**`]),
    `${md(revisionText(revision))}. Prepared by ${md(revision.preparedBy ?? 'nobody named')}, checked by ${md(revision.checkedBy ?? 'nobody named')}.`,
    `Fingerprint \`${fingerprint}\``,
    `*${md(deferral)}*`,
    summary(checklist),
    ...stages.flatMap((stage) => [`## ${md(stage.title)}`, ...groupsOf(stage.steps).flatMap(groupParts)]),
  ];
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

function summary({ overview }: Checklist): string {
  const { counts, findings, deviations } = overview;
  const count = `${counts.errors} errors, ${counts.warnings} warnings, ${counts.notes} notes open; ${counts.deviated} accepted; ${counts.passed} checks passed, ${counts.notRun} not run, ${counts.setAside} set aside.`;
  const lines = [
    ...findings.map((each) => `- **${each.severity}** ${md(each.message)} (${md(each.check)})`),
    ...deviations.map(
      (each) =>
        `- **accepted** ${md(each.message)} Reason: ${md(each.reason)}; until ${md(each.until)}, by ${md(each.approvedBy)}.`,
    ),
  ];
  return [count, lines.join('\n')].filter((part) => part !== '').join('\n\n');
}

function groupParts({ title, steps }: ReturnType<typeof groupsOf>[number]): readonly string[] {
  const heading = title === undefined ? [] : [`### ${md(title)}`];
  return [...heading, ...runs(steps, layoutOf).map(runText)];
}

function layoutOf({ kind }: Step): string {
  return kind === 'caution' || kind === 'set' ? kind : 'task';
}

function runText(steps: readonly Step[]): string {
  const kind = steps[0]?.kind;
  if (kind === 'caution') return steps.map((each) => `> **Caution.** ${md(each.text)}`).join('\n>\n');
  return kind === 'set' ? settingTable(steps) : steps.map(taskText).join('\n');
}

function settingTable(steps: readonly Step[]): string {
  const rows = steps.map((each) => {
    const cells = [each.text, plannedText(each), limitText(each.limit, each.unit), each.note ?? ''].map(md);
    return `| ${cells.join(' | ')} |  | \`${each.id}\` |`;
  });
  return [
    '| Setting | Planned | Allowed | Note | As left | Item |',
    '| --- | --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}

function taskText(step: Step): string {
  const lead = step.kind === 'hold' ? '**Signature.** ' : '';
  const facts = [
    step.planned === undefined
      ? ''
      : `planned ${numberText(step.planned)}${step.unit === undefined ? '' : ` ${step.unit}`}`,
    step.expected === undefined ? '' : `expected ${numberText(step.expected)} ${step.unit ?? ''}`.trim(),
    limitText(step.limit, step.unit),
  ].filter((each) => each !== '');
  const known = facts.length === 0 ? '' : ` (${md(facts.join('; '))})`;
  const note = step.note === undefined ? '' : ` *${md(step.note)}*`;
  return `- [ ] ${lead}${md(step.text)}${known}${note}${blanks(step)} \`${step.id}\``;
}

function blanks({ kind, fields, unit }: Step): string {
  if (kind === 'hold') return ' Name, signature, time: \\_\\_\\_\\_';
  if (kind !== 'read') return '';
  const names = fields ?? [''];
  const tail = unit === undefined ? '' : ` ${md(unit)}`;
  return ` ${names.map((name) => `${md(name)} \\_\\_\\_\\_${tail}`.trim()).join(', ')}`;
}

import type { AnswerStage, Handover } from '../../engine/index.ts';
import { escapeMarkdown as md } from '../markdown/escape.ts';
import { markdownTable } from '../markdown/table.ts';
import { behindText, countsText, dueText, factsOf, NOTHING, settingVerdict, stateText, titleOf } from './words.ts';

/** The handover report as Markdown, for a pull request or a wiki. */
export function renderHandoverMarkdown(report: Handover): string {
  const parts = [
    `# ${md(titleOf(report))}`,
    factsOf(report)
      .map(([name, value]) => `- ${name}: ${md(value)}`)
      .join('\n'),
    stateText(report),
    `**${countsText(report)}**`,
    `*${md(report.deferral)}*`,
    ...section('Deviating', [deviating(report)]),
    ...section('Left open', report.open.map(openStage)),
    ...section('Settings as left', [settings(report)]),
    ...section('Signatures', [signatures(report)]),
    ...section('Remarks', [report.remarks.map(({ item, text }) => `- ${code(item)} ${md(text)}`).join('\n')]),
    ...section('Checks that could not be made', [notRun(report)]),
    ...section('Done', report.done.map(doneStage)),
  ];
  return `${parts.join('\n\n')}\n`;
}

function section(title: string, parts: readonly string[]): readonly string[] {
  const filled = parts.filter((each) => each !== '');
  return [`## ${title}`, ...(filled.length === 0 ? [NOTHING] : filled)];
}

/** An id as code; what a document calls an id and is none, as plain text. */
function code(text: string): string {
  return /^[\p{L}\p{N}_.-]+$/u.test(text) ? `\`${text}\`` : md(text);
}

function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  return rows.length === 0 ? '' : markdownTable(heads, rows);
}

function deviating(report: Handover): string {
  return report.deviating
    .map(({ severity, check, message }) => `- **${severity}** ${md(message)} (${md(check)})`)
    .join('\n');
}

function openStage({ title, lines }: AnswerStage): string {
  const items = lines.map(
    ({ item, text, note }) => `- [ ] ${md(text)}${note === undefined ? '' : ` *${md(note)}*`} ${code(item)}`,
  );
  return `### ${md(title)}\n\n${items.join('\n')}`;
}

function settings(report: Handover): string {
  const rows = report.settings.map((each) => {
    const cells = [each.title, each.planned ?? '', each.left ?? '', settingVerdict(each), each.note ?? ''].map(md);
    return [...cells, code(each.item)];
  });
  return table(['Setting', 'Planned', 'As left', 'Compared', 'Note', 'Item'], rows);
}

function signatures(report: Handover): string {
  const rows = report.signatures.map(({ text, by, at, item }) => [
    md(text),
    md(by ?? 'not signed'),
    md(at ?? ''),
    code(item),
  ]);
  return table(['Hold point', 'Released by', 'At', 'Item'], rows);
}

function notRun(report: Handover): string {
  return report.notRun.map(({ check, missing }) => `- ${md(check)}: ${md(missing.join(', '))}`).join('\n');
}

function doneStage({ title, lines }: AnswerStage): string {
  const rows = lines.map((line) => {
    const answer = line.finding === undefined ? line.answer : `${line.answer} (${line.finding})`;
    const cells = [line.text, answer, dueText(line), behindText(line), line.note ?? ''].map(md);
    return [...cells, code(line.item)];
  });
  return `### ${md(title)}\n\n${table(['Item', 'Answer', 'Due', 'By, at, with', 'Note', 'Item id'], rows)}`;
}

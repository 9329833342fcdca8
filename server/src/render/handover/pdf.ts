import { type AnswerLine, type AnswerStage, type Handover, shortened } from '../../engine/index.ts';
import type { Paper } from '../html/print-css.ts';
import type { TextStyle } from '../pdf/canvas.ts';
import { factsBlock } from '../pdf/facts.ts';
import type { Block } from '../pdf/flow.ts';
import { shortFingerprint } from '../pdf/frame.ts';
import { type Picture, qrPicture } from '../pdf/qr.ts';
import { type Setter, STYLES } from '../pdf/setter.ts';
import { type Cell, type Row, type TableColumn, tableBlocks } from '../pdf/table.ts';
import { typeset } from '../pdf/typeset.ts';
import {
  bandText,
  behindText,
  countsText,
  dueText,
  factsOf,
  isTickAlone,
  type Log,
  logFacts,
  logsOf,
  NOTHING,
  settingVerdict,
  stateText,
  titleOf,
} from './words.ts';

/** The handover report as a PDF to print, sign and file. The same report gives the same bytes. */
export function renderHandoverPdf(report: Handover, { paper }: { readonly paper: Paper }): Promise<Uint8Array> {
  const code = codeOf(report);
  return typeset(paper, {
    about: { title: titleOf(report), subject: report.deferral },
    frame: { band: bandText(report), foot: footTexts(report), code },
    blocks: (setter) => blocksOf(setter, report, code),
  });
}

/** What a document calls its fingerprint may be anything; only what is one fits into a code. */
function codeOf({ fingerprint }: Handover): Picture | undefined {
  return fingerprint !== undefined && /^sha256:[0-9a-f]{64}$/.test(fingerprint) ? qrPicture(fingerprint) : undefined;
}

const LONGEST_NAME = 60;

function footTexts(report: Handover): readonly string[] {
  const { date, deferral, fingerprint } = report;
  const name = shortened(titleOf(report), LONGEST_NAME);
  const code = codeOf(report) === undefined || fingerprint === undefined ? '' : ` ${shortFingerprint(fingerprint)}`;
  return [`${name}.${date === undefined ? '' : ` Visit of ${date}.`}${code}`, deferral];
}

function blocksOf(setter: Setter, report: Handover, code: Picture | undefined): readonly Block[] {
  const text = (words: string, style: TextStyle) => setter.paragraph(words, style, { after: 3 });
  return [
    setter.paragraph(titleOf(report), STYLES.title, { after: 6, tag: 'H1', staysWithNext: true }),
    factsBlock(setter, factsOf(report), code),
    text(stateText(report), STYLES.text),
    text(countsText(report), STYLES.strong),
    text(report.deferral, STYLES.note),
    ...part(setter, 'Deviating', deviating(setter, report)),
    ...part(
      setter,
      'Left open',
      report.open.flatMap((stage) => openStage(setter, stage)),
    ),
    ...part(setter, 'Settings as left', settings(setter, report)),
    ...part(setter, 'Signatures', signatures(setter, report)),
    ...part(setter, 'Remarks', remarks(setter, report)),
    ...part(setter, 'Checks that could not be made', notRun(setter, report)),
    ...part(
      setter,
      'Done',
      report.done.flatMap((stage) => doneStage(setter, stage)),
    ),
  ];
}

function part(setter: Setter, title: string, content: readonly Block[]): readonly Block[] {
  const heading = setter.paragraph(title, STYLES.stage, { before: 12, after: 3, tag: 'H2', staysWithNext: true });
  return [heading, ...(content.length === 0 ? [setter.paragraph(NOTHING, STYLES.text)] : content)];
}

function stageHeading(setter: Setter, { title }: AnswerStage): Block {
  return setter.paragraph(title, STYLES.group, { before: 6, after: 2, tag: 'H3', staysWithNext: true });
}

function cell(text: string | undefined, style: TextStyle = STYLES.note): Cell {
  return [[text ?? '', style]];
}

/** What an item asks, what was noted at it, and its id to find it by. */
function itemCell({ text, note, item }: Pick<AnswerLine, 'text' | 'note' | 'item'>): Cell {
  const noted: Cell = note === undefined ? [] : [[`Note: ${note}`, STYLES.note]];
  return [[text, STYLES.note], ...noted, [item, STYLES.small]];
}

function deviating(setter: Setter, report: Handover): readonly Block[] {
  const columns = [{ title: 'Severity', width: 52 }, { title: 'What was found' }, { title: 'Check', width: 118 }];
  const rows = report.deviating.map(({ severity, message, item, check }) => ({
    cells: [
      cell(severity, STYLES.strong),
      [
        [message, STYLES.text],
        [item ?? '', STYLES.small],
      ] as const,
      cell(check, STYLES.small),
    ],
  }));
  return tableBlocks(setter, columns, rows);
}

function openStage(setter: Setter, stage: AnswerStage): readonly Block[] {
  const rows = stage.lines.map((line) => ({ cells: [itemCell(line)] }));
  return [stageHeading(setter, stage), ...tableBlocks(setter, [{ title: '' }], rows)];
}

function settings(setter: Setter, report: Handover): readonly Block[] {
  const columns = [
    { title: 'Setting' },
    { title: 'Planned', width: 92 },
    { title: 'As left', width: 92 },
    { title: 'Compared', width: 76 },
    { title: 'Note', width: 96 },
  ];
  const rows = report.settings.map((each): Row => {
    const { title, item, planned, left, isSame, note } = each;
    const isOther = left !== undefined && !isSame;
    const style = isOther ? STYLES.strong : STYLES.text;
    const name: Cell = [
      [title, style],
      [item, STYLES.small],
    ];
    const values = [planned, left, settingVerdict(each)].map((text) => cell(text, style));
    return { cells: [name, ...values, cell(note)], isFramed: isOther };
  });
  return tableBlocks(setter, columns, rows);
}

/** Points of height to sign in, by hand. */
const SIGNATURE = 34;

function signatures(setter: Setter, report: Handover): readonly Block[] {
  const columns = [
    { title: 'Hold point' },
    { title: 'Released by', width: 86 },
    { title: 'At', width: 80 },
    { title: 'Signature on paper', width: 140 },
  ];
  const rows = report.signatures.map((line) => ({
    cells: [itemCell(line), cell(line.by ?? 'not signed', STYLES.strong), cell(line.at), cell('')],
    minHeight: SIGNATURE,
  }));
  return tableBlocks(setter, columns, rows);
}

const NAME_FIRST: readonly TableColumn[] = [{ title: 'Item', width: 150 }, { title: 'Remark' }];

function remarks(setter: Setter, report: Handover): readonly Block[] {
  const rows = report.remarks.map(({ item, text }) => ({ cells: [cell(item, STYLES.small), cell(text, STYLES.text)] }));
  return tableBlocks(setter, NAME_FIRST, rows);
}

function notRun(setter: Setter, report: Handover): readonly Block[] {
  const columns = [{ title: 'Check', width: 150 }, { title: 'What it lacks' }];
  const rows = report.notRun.map(({ check, missing }) => ({ cells: [cell(check), cell(missing.join(', '))] }));
  return tableBlocks(setter, columns, rows);
}

/** What was ticked and nothing more stands in two columns; what was read, or has more to say, in a table. */
function doneStage(setter: Setter, stage: AnswerStage): readonly Block[] {
  const ticked = stage.lines.filter(isTickAlone).map(({ text }) => cell(text));
  const pairs = ticked.flatMap((each, index) =>
    index % 2 === 0 ? [{ cells: [each, ticked[index + 1] ?? cell('')] }] : [],
  );
  const told = stage.lines.filter((line) => !isTickAlone(line) && line.series.length === 0);
  return [
    stageHeading(setter, stage),
    ...tableBlocks(setter, [{ title: 'Ticked' }, { title: '' }], pairs),
    ...apart(setter, tableBlocks(setter, ANSWERS, told.map(toldRow))),
    ...logsOf(stage).flatMap((log) => apart(setter, logBlocks(setter, log))),
  ];
}

/** A table with room before it. */
function apart(setter: Setter, table: readonly Block[]): readonly Block[] {
  return table.length === 0 ? [] : [setter.paragraph('', STYLES.small, { after: 6 }), ...table];
}

function logBlocks(setter: Setter, { names, rows }: Log): readonly Block[] {
  const columns = [{ title: 'Reading', width: 150 }, ...names.map((title) => ({ title }))];
  const lines = rows.map(({ line, texts }): Row => {
    const facts: Cell = [[logFacts(line), STYLES.small]];
    return {
      cells: [[...itemCell(line), ...facts], ...texts.map((text) => cell(text, STYLES.smallStrong))],
      isFramed: line.finding !== undefined,
    };
  });
  return tableBlocks(setter, columns, lines);
}

const ANSWERS: readonly TableColumn[] = [
  { title: 'Item' },
  { title: 'Answer', width: 116 },
  { title: 'Due', width: 92 },
  { title: 'By, at, with', width: 84 },
];

function toldRow(line: AnswerLine): Row {
  const answer = line.finding === undefined ? line.answer : `${line.answer} (${line.finding})`;
  return {
    cells: [itemCell(line), cell(answer, STYLES.smallStrong), cell(dueText(line)), cell(behindText(line))],
    isFramed: line.finding !== undefined,
  };
}

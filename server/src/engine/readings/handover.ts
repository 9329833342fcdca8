import type { CheckedFile } from '../check-document.ts';
import { DEFERRAL } from '../checklist/cautions.ts';
import type { Checklist } from '../checklist/checklist.ts';
import type { Step, StepLimit } from '../checklist/step.ts';
import type { Finding, Severity } from '../findings/finding.ts';
import { type SettingLeft, settingsLeft } from './as-left.ts';
import { type Row, signatureOf, Visit } from './visit.ts';

/** An item with what was answered at it. */
export interface AnswerLine {
  readonly item: string;
  readonly group: string | undefined;
  readonly text: string;
  /** As written, with the names of the fields where there are several; empty where nothing was. */
  readonly answer: string;
  /** The answers of a step that has many, by time or depth, in its unit; empty for one that has few. */
  readonly series: readonly SeriesEntry[];
  readonly limit: StepLimit | undefined;
  readonly unit: string | undefined;
  readonly case: string | undefined;
  readonly by: string | undefined;
  readonly at: string | undefined;
  readonly instrument: string | undefined;
  readonly note: string | undefined;
  /** The gravest finding at this item. */
  readonly finding: Severity | undefined;
}

export interface SeriesEntry {
  readonly name: string;
  /** Without the unit where it is that of the step; empty where nothing was written. */
  readonly text: string;
}

export interface AnswerStage {
  readonly title: string;
  readonly lines: readonly AnswerLine[];
}

export interface DeviatingLine {
  readonly severity: Severity;
  readonly check: string;
  readonly message: string;
  readonly item: string | undefined;
}

export interface SettingLine {
  readonly item: string;
  readonly title: string;
  readonly planned: string | undefined;
  /** Undefined where nobody wrote it down. */
  readonly left: string | undefined;
  readonly isSame: boolean;
  readonly note: string | undefined;
}

export interface RemarkLine {
  readonly item: string;
  readonly text: string;
}

/** What a visit hands over: what was done, what deviates, what is open, how the well was left. */
export interface Handover {
  readonly well: string;
  readonly field: string | undefined;
  readonly pad: string | undefined;
  readonly installation: string;
  readonly revision: Checklist['revision'];
  /** Of the checklist that the crew worked by. */
  readonly fingerprint: string | undefined;
  /** Whether the installation is still the one from which that checklist was made. */
  readonly isCurrent: boolean;
  readonly date: string | undefined;
  readonly crew: readonly string[];
  readonly counts: {
    readonly items: number;
    readonly answered: number;
    readonly open: number;
    readonly errors: number;
    readonly warnings: number;
    readonly notes: number;
    readonly settings: number;
    readonly settingsDiffering: number;
  };
  readonly deviating: readonly DeviatingLine[];
  readonly open: readonly AnswerStage[];
  readonly settings: readonly SettingLine[];
  readonly signatures: readonly AnswerLine[];
  readonly remarks: readonly RemarkLine[];
  readonly done: readonly AnswerStage[];
  /** Checks of the readings that could not be made, with what they lack. */
  readonly notRun: readonly { readonly check: string; readonly missing: readonly string[] }[];
  readonly deferral: string;
}

/**
 * The report of a visit from its checked readings.
 * @param planned the installation that was visited, checked
 * @throws Error where the installation has no checklist
 */
export function buildHandover(file: CheckedFile, planned: CheckedFile, today: string): Handover {
  const visit = new Visit(file.document, planned, today);
  const { checklist } = visit;
  const [well, field, pad] = [checklist.well, checklist.field, checklist.pad];
  const open = stagesOf(visit, file, (step) => !visit.isAnswered(step));
  const settings = settingLines(visit);
  const fingerprint = visit.text('fingerprint');
  return {
    ...{ well, field, pad, fingerprint, open, settings },
    installation: visit.text('installation') ?? '',
    revision: checklist.revision,
    isCurrent: fingerprint === checklist.fingerprint,
    date: visit.text('visit.date'),
    crew: crewOf(visit),
    counts: countsOf(visit, file, settings),
    deviating: deviatingIn(visit, file),
    signatures: signatureLines(visit, file),
    remarks: remarksOf(visit),
    done: stagesOf(visit, file, (step) => isTold(visit, step)),
    notRun: notRunIn(file),
    deferral: DEFERRAL,
  };
}

function crewOf({ document }: Visit): readonly string[] {
  const { tree } = document;
  return [...tree.children(tree.find('visit.crew'))].map((node) => tree.scalar(node)).filter((name) => name !== '');
}

function stepsOf({ checklist }: Visit): readonly Step[] {
  return checklist.stages.flatMap((stage) => stage.steps).filter(({ kind }) => kind !== 'caution');
}

function countsOf(visit: Visit, file: CheckedFile, settings: readonly SettingLine[]): Handover['counts'] {
  const steps = stepsOf(visit);
  const answered = steps.filter((step) => visit.isAnswered(step)).length;
  const count = (severity: Severity) => file.findings.filter((each) => each.severity === severity).length;
  return {
    items: steps.length,
    answered,
    open: steps.length - answered,
    errors: count('error'),
    warnings: count('warning'),
    notes: count('note'),
    settings: settings.length,
    settingsDiffering: settings.filter(({ left, isSame }) => left !== undefined && !isSame).length,
  };
}

const GRAVEST_FIRST: readonly Severity[] = ['error', 'warning', 'note'];

function deviatingIn(visit: Visit, { findings }: CheckedFile): readonly DeviatingLine[] {
  const lines = findings.filter(isOfVisit).map((finding) => deviatingLine(visit, finding));
  return GRAVEST_FIRST.flatMap((severity) => lines.filter((line) => line.severity === severity));
}

/** That not all checks could run is told at the end. */
function isOfVisit({ check }: Finding): boolean {
  return check !== 'document.not-run';
}

function deviatingLine(visit: Visit, { severity, check, message, key }: Finding): DeviatingLine {
  const row = visit.rows.find((each) => isAt(key, each));
  return { severity, check, message, item: row?.item };
}

function isAt(key: string, row: Row): boolean {
  return key === row.key || key.startsWith(`${row.key}.`);
}

function stagesOf(visit: Visit, file: CheckedFile, takes: (step: Step) => boolean): readonly AnswerStage[] {
  return visit.checklist.stages
    .map(({ title, steps }) => ({
      title,
      lines: steps.filter((step) => step.kind !== 'caution' && takes(step)).map((step) => lineOf(visit, file, step)),
    }))
    .filter(({ lines }) => lines.length > 0);
}

/** Settings and signatures have tables of their own. */
function isTold(visit: Visit, step: Step): boolean {
  return step.kind !== 'set' && step.kind !== 'hold' && visit.isAnswered(step);
}

function lineOf(visit: Visit, file: CheckedFile, step: Step): AnswerLine {
  const row = visit.row(step.id);
  const { id: item, group, text, limit, unit, case: inCase } = step;
  const { by, at, instrument, note } = row ?? {};
  const own = row === undefined ? [] : file.findings.filter(({ key }) => isAt(key, row));
  const finding = (['error', 'warning', 'note'] as const).find((each) => own.some(({ severity }) => severity === each));
  return {
    item,
    group,
    text,
    answer: answerOf(step, row),
    series: seriesOf(step, row),
    limit,
    unit,
    case: inCase,
    by,
    at,
    instrument,
    note,
    finding,
  };
}

function answerOf({ fields }: Step, row: Row | undefined): string {
  const written = row?.entries.filter(({ text }) => text !== '') ?? [];
  const isSeries = fields !== undefined && new Set(fields).size === fields.length && fields.length > 1;
  return written.map(({ text, index }) => (isSeries ? `${fields[index] ?? index + 1}: ${text}` : text)).join(', ');
}

/** More fields than three phases, or what an instrument is asked for, are a series. */
const FEW_FIELDS = 3;

function seriesOf({ fields = [], unit }: Step, row: Row | undefined): readonly SeriesEntry[] {
  if (row === undefined || unit === undefined || fields.length <= FEW_FIELDS) return [];
  const texts = new Map(row.entries.map(({ index, text }) => [index, text]));
  return fields.map((name, index) => {
    const text = texts.get(index) ?? '';
    return { name, text: text.endsWith(` ${unit}`) ? text.slice(0, -unit.length - 1) : text };
  });
}

function signatureLines(visit: Visit, file: CheckedFile): readonly AnswerLine[] {
  return stepsOf(visit)
    .filter(({ kind }) => kind === 'hold')
    .map((step) => {
      const row = visit.row(step.id);
      return { ...lineOf(visit, file, step), by: row && signatureOf(row) };
    });
}

function settingLines(visit: Visit): readonly SettingLine[] {
  const left = new Map(settingsLeft(visit).map((setting) => [setting.item, setting]));
  const sheet = stepsOf(visit).filter(({ kind }) => kind === 'set');
  const others = [...left.values()].filter(({ item }) => !visit.steps.has(item));
  return [
    ...sheet.map((step) => settingLine(visit, step, left.get(step.id))),
    ...others.map(({ item, key, left: text, note }) => ({
      ...{ item, title: key, planned: undefined, left: text, isSame: false, note },
    })),
  ];
}

function settingLine(visit: Visit, { id, text, planned, unit }: Step, setting: SettingLeft | undefined): SettingLine {
  const plan = typeof planned === 'boolean' ? (planned ? 'yes' : 'no') : planned;
  return {
    item: id,
    title: text,
    planned: plan === undefined ? undefined : `${plan} ${unit ?? ''}`.trim(),
    // Words are printed with blanks, as the plan is.
    left: typeof planned === 'string' && setting?.isSame ? setting.left.replaceAll('_', ' ') : setting?.left,
    isSame: setting?.isSame ?? false,
    note: visit.row(id)?.note,
  };
}

const REMARKS: readonly string[] = ['handover.remarks', 'handover.spares', 'handover.differences'];

/** What was written in words: the remarks, every note, and what stands under a name that the checklist does not have. */
function remarksOf(visit: Visit): readonly RemarkLine[] {
  return visit.rows.flatMap((row) => {
    const { item, note, placed } = row;
    const isRemark = placed === undefined || REMARKS.includes(item);
    const written = isRemark ? row.entries.map(({ text }) => text).filter((text) => text !== '') : [];
    const texts = [...written, ...(note === undefined ? [] : [note])];
    return texts.length === 0 ? [] : [{ item, text: texts.join(', ') }];
  });
}

function notRunIn({ statuses }: CheckedFile): Handover['notRun'] {
  return [...statuses].flatMap(([check, each]) =>
    each.status === 'not_run' ? [{ check, missing: each.missing }] : [],
  );
}

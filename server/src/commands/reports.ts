import type { CheckedFile } from '../engine/index.ts';
import type { Report, Summary } from '../render/report.ts';
import type { Shown } from '../render/text/findings.ts';
import { type Output, openOutput } from './output.ts';
import { Refusal, type Surroundings, styleOf } from './surroundings.ts';

export const FORMATS = ['text', 'json'] as const;
export type Format = (typeof FORMATS)[number];

export interface ReportArguments {
  readonly format?: Format | undefined;
  /** A file instead of standard output. */
  readonly output?: string | undefined;
  /** Further reports, each `FORMAT=FILE`. */
  readonly report?: readonly string[] | undefined;
  readonly show?: readonly Shown[] | undefined;
  readonly color?: boolean | undefined;
}

type NameOf = (path: string) => string;

/** Reports that are written together, so that many files are gone through once. */
export class Reports {
  readonly #reports: readonly { readonly report: Report; readonly output: Output }[];

  constructor(reports: readonly { readonly report: Report; readonly output: Output }[]) {
    this.#reports = reports;
  }

  readonly write = (file: CheckedFile): void => {
    for (const { report, output } of this.#reports) output.write(report.file(file));
  };

  /** Begins the reports, lets `run` write files, and ends them with its summary; leaves no file if that fails. */
  writing<T extends { readonly summary: Summary }>(run: () => T): T {
    try {
      for (const { report, output } of this.#reports) output.write(report.begin());
      const outcome = run();
      for (const { report, output } of this.#reports) output.write(report.end(outcome.summary));
      for (const { output } of this.#reports) output.finish();
      return outcome;
    } catch (error) {
      for (const { output } of this.#reports) output.abandon();
      throw error;
    }
  }
}

/** @throws Refusal for a report that cannot be understood or written */
export async function openReports(args: ReportArguments, nameOf: NameOf, surroundings: Surroundings): Promise<Reports> {
  const asked = [{ format: args.format ?? 'text', file: args.output }, ...(args.report ?? []).map(parseReport)];
  const files = asked.flatMap(({ file }) => file ?? []);
  const twice = files.find((file, index) => files.indexOf(file) !== index);
  if (twice !== undefined) throw new Refusal(`Two reports would be written to '${twice}'.`);
  const reports = await Promise.all(
    asked.map(({ format, file }) => reportOf(format, file, args, nameOf, surroundings)),
  );
  return new Reports(openAll(asked, reports, surroundings));
}

function openAll(
  asked: readonly { readonly file: string | undefined }[],
  reports: readonly Report[],
  to: Surroundings,
) {
  const opened: { report: Report; output: Output }[] = [];
  try {
    for (const [index, report] of reports.entries())
      opened.push({ report, output: openOutput(asked[index]?.file, to) });
    return opened;
  } catch (error) {
    for (const { output } of opened) output.abandon();
    throw error;
  }
}

function parseReport(text: string): { readonly format: Format; readonly file: string } {
  const [, name = '', file = ''] = /^([^=]*)=(.+)$/s.exec(text) ?? [];
  const format = FORMATS.find((each) => each === name);
  if (format !== undefined && file !== '') return { format, file };
  throw new Refusal(`A report is asked for as FORMAT=FILE, with the format ${FORMATS.join(' or ')}, not as '${text}'.`);
}

async function reportOf(
  format: Format,
  file: string | undefined,
  args: ReportArguments,
  nameOf: NameOf,
  surroundings: Surroundings,
): Promise<Report> {
  if (format === 'json') return (await import('../render/json/check.ts')).checkJsonReport(nameOf);
  const { findingsReport } = await import('../render/text/findings.ts');
  const style = styleOf({ output: file, color: args.color }, surroundings);
  return findingsReport({ nameOf, ...style, show: new Set(args.show ?? []) });
}

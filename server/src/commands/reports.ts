import type { Report, Run } from '../render/report.ts';
import type { Shown } from '../render/text/findings.ts';
import { reportOf } from './checking/report-of.ts';
import { FORMATS, type Format, type ReportForm, type Setup } from './checking/setup.ts';
import { type Output, openOutput } from './output.ts';
import { Refusal, type Surroundings, styleOf } from './surroundings.ts';

export interface ReportArguments {
  readonly format?: Format | undefined;
  /** A file instead of standard output. */
  readonly output?: string | undefined;
  /** Further reports, each `FORMAT=FILE`. */
  readonly report?: readonly string[] | undefined;
  readonly show?: readonly Shown[] | undefined;
  readonly color?: boolean | undefined;
}

/** A report that was asked for, and where it goes. */
export interface Asked {
  readonly form: ReportForm;
  readonly file: string | undefined;
}

/** @throws Refusal for a report that cannot be understood */
export function askedReports(args: ReportArguments, surroundings: Surroundings): readonly Asked[] {
  const asked = [{ format: args.format ?? 'text', file: args.output }, ...(args.report ?? []).map(parseReport)];
  const files = asked.flatMap(({ file }) => file ?? []);
  const twice = files.find((file, index) => files.indexOf(file) !== index);
  if (twice !== undefined) throw new Refusal(`Two reports would be written to '${twice}'.`);
  return asked.map(({ format, file }) => {
    const { paint, width } = styleOf({ output: file, color: args.color }, surroundings);
    return { form: { format, width, isColoured: paint === surroundings.colours }, file };
  });
}

function parseReport(text: string): { readonly format: Format; readonly file: string } {
  const [, name = '', file = ''] = /^([^=]*)=(.+)$/s.exec(text) ?? [];
  const format = FORMATS.find((each) => each === name);
  if (format !== undefined && file !== '') return { format, file };
  const formats = `${FORMATS.slice(0, -1).join(', ')} or ${FORMATS.at(-1)}`;
  throw new Refusal(`A report is asked for as FORMAT=FILE, with the format ${formats}, not as '${text}'.`);
}

/** Reports that are written together, so that many files are gone through once. */
export class Reports {
  readonly #reports: readonly { readonly report: Report; readonly output: Output }[];

  constructor(reports: readonly { readonly report: Report; readonly output: Output }[]) {
    this.#reports = reports;
  }

  /** Adds what each report says of a file. */
  readonly write = (pieces: readonly string[]): void => {
    for (const [place, { report, output }] of this.#reports.entries()) put(output, report.next(pieces[place] ?? ''));
  };

  /** Begins the reports, lets `run` write files, and ends them with what it comes to; leaves no file if that fails. */
  async writing<T extends { readonly run: Run }>(run: () => Promise<T>): Promise<T> {
    try {
      for (const { report, output } of this.#reports) put(output, report.begin());
      const outcome = await run();
      for (const { report, output } of this.#reports) put(output, report.end(outcome.run));
      for (const { output } of this.#reports) output.finish();
      return outcome;
    } catch (error) {
      for (const { output } of this.#reports) output.abandon();
      throw error;
    }
  }
}

function put(output: Output, text: string): void {
  if (text !== '') output.write(text);
}

/** @throws Refusal for a report that cannot be written */
export async function openReports(
  asked: readonly Asked[],
  setup: Setup,
  nameOf: (path: string) => string,
  surroundings: Surroundings,
): Promise<Reports> {
  const reports = await Promise.all(asked.map(({ form }) => reportOf(form, setup, surroundings, nameOf)));
  const opened: { report: Report; output: Output }[] = [];
  try {
    for (const [place, report] of reports.entries())
      opened.push({ report, output: openOutput(asked[place]?.file, surroundings) });
    return new Reports(opened);
  } catch (error) {
    for (const { output } of opened) output.abandon();
    throw error;
  }
}

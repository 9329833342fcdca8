import type { Severity } from '../../engine/index.ts';
import type { Paint } from '../../render/paint.ts';
import type { Shown } from '../../render/text/findings.ts';
import type { ScopeArguments } from '../scope.ts';
import type { AcceptedEntry } from './accepted.ts';

export const FORMATS = ['text', 'json', 'sarif', 'junit', 'markdown'] as const;
export type Format = (typeof FORMATS)[number];

/** How one report is written. */
export interface ReportForm {
  readonly format: Format;
  /** Characters on a line, and whether colours are wanted; both of a text only. */
  readonly width: number;
  readonly isColoured: boolean;
}

/** What checking files needs to know, as plain data that can be sent to a worker. */
export interface Setup {
  readonly cwd: string;
  /** With the day filled in. */
  readonly scope: ScopeArguments & { readonly today: string };
  readonly reports: readonly ReportForm[];
  readonly show: readonly Shown[];
  readonly failOn: Severity;
  readonly accepted: readonly AcceptedEntry[];
  readonly version: string | undefined;
}

/** What cannot be sent: how colours are set. */
export interface Means {
  readonly colours: Paint;
}

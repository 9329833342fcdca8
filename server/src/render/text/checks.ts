import type { Check, LimitDeclaration } from '../../engine/index.ts';
import { limitText } from '../limit-text.ts';
import type { Paint } from '../paint.ts';
import { wrap } from './lines.ts';

export interface ChecksOptions {
  readonly paint: Paint;
  readonly width: number;
}

/** The checks, by subject. */
export function checksList(checks: readonly Check[], options: ChecksOptions): string {
  const subjects = new Map<string, Check[]>();
  for (const check of checks) {
    const subject = check.id.split('.')[0] ?? '';
    subjects.set(subject, [...(subjects.get(subject) ?? []), check]);
  }
  const groups = [...subjects].map(([subject, own]) => {
    return [options.paint.strong(subject), ...own.map((check) => checkLine(check, options.paint))].join('\n');
  });
  return `${groups.join('\n\n')}\n`;
}

function checkLine({ id, severity, title }: Check, paint: Paint): string {
  return `  ${id.padEnd(36)} ${paint[severity](severity.padEnd(8))} ${title}`;
}

/** One check in full, with the limits that a policy may set for it. */
export function checkPage(check: Check, limits: readonly LimitDeclaration[], options: ChecksOptions): string {
  const { paint, width } = options;
  const paragraphs: readonly (readonly [string, string])[] = [
    ['Compares', check.compares],
    ['Why', check.why],
    ['To mend it', check.mend],
    ['Source', check.source],
    ['Concerns', check.concerns.join(', ')],
  ];
  const lines = [
    `${paint.strong(check.id)}  ${paint[check.severity](check.severity)}`,
    check.title,
    ...paragraphs.flatMap(([name, text]) => ['', paint.strong(name), ...wrap(text, width, '  ')]),
    ...(limits.length === 0
      ? []
      : ['', paint.strong('Limits that a policy may set'), ...limits.flatMap(limitLines(width))]),
  ];
  return `${lines.join('\n')}\n`;
}

function limitLines(width: number) {
  return ({ name, title, kind, number, source }: LimitDeclaration): readonly string[] =>
    wrap(`${name}: ${limitText({ number, kind })}, ${title} (${source})`, width, '    ', '  ');
}

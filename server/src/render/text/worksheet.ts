import { visible } from '../escape.ts';
import type { Paint } from '../paint.ts';
import type { CaseSheet, Heading, Worksheet } from '../worksheet/model.ts';
import type { InputRow, UnavailableRow, ValueRow, ValueSheet } from '../worksheet/values.ts';
import type { BoundRow, WindowSheet } from '../worksheet/windows.ts';
import { counted, DEFERS, wrap } from './lines.ts';

export interface WorksheetOptions {
  readonly nameOf: (path: string) => string;
  readonly paint: Paint;
  readonly width: number;
}

/** A worksheet for a terminal: what holds for the whole file, then case by case, then the windows of the setpoints. */
export function worksheetText(sheet: Worksheet, options: WorksheetOptions): string {
  const writer = new Writer(options);
  writer.heading(sheet.heading);
  const { errors, warnings } = sheet.summary;
  writer.paragraph(`${counted(errors, 'error')} and ${counted(warnings, 'warning')} in this file.`);
  if (sheet.worked === undefined) writer.paragraph('The values of this file could not be worked out.');
  else {
    writer.values('For the whole file', sheet.worked.file);
    for (const each of sheet.worked.cases) writer.case(each);
    writer.windows(sheet.worked.windows);
  }
  writer.limits(sheet.limits);
  return writer.finish();
}

const STEP = '  ';

class Writer {
  readonly #options: WorksheetOptions;
  readonly #lines: string[] = [];

  constructor(options: WorksheetOptions) {
    this.#options = options;
  }

  finish(): string {
    return `${this.#lines.join('\n')}\n`;
  }

  heading({ well, site, path, revision, fingerprint, date }: Heading): void {
    const { paint, nameOf } = this.#options;
    const at = site === '' ? '' : `, ${site}`;
    this.#lines.push(paint.strong(visible(`Worksheet of ${well}${at}`)));
    this.#write(`${nameOf(path)}, revision ${revision}, worked on ${date}`, 0);
    this.#lines.push(fingerprint, '');
    this.paragraph(DEFERS);
  }

  paragraph(text: string): void {
    this.#write(text, 0);
    this.#lines.push('');
  }

  case({ name, entries, values }: CaseSheet): void {
    this.values(`Case '${name}'${entries === '' ? '' : ` (${entries})`}`, values);
  }

  values(title: string, { rows, unavailable }: ValueSheet): void {
    this.#title(title);
    for (const row of rows) this.#value(row);
    for (const row of unavailable) this.#unavailable(row);
  }

  /** The limits of the policy that are not the usual ones; what holds otherwise is in `setproof checks`. */
  limits(limits: Worksheet['limits']): void {
    this.#title('Limits that the policy sets');
    if (limits.length === 0) this.#write('None: the defaults hold.', 1);
    for (const { name, title, shown, usual } of limits)
      this.#write(`${title} (${name}): ${shown}, by default ${usual}`, 1);
    this.#lines.push('');
  }

  windows(windows: readonly WindowSheet[]): void {
    this.#title('Windows of the setpoints');
    for (const window of windows) this.#window(window);
  }

  #title(text: string): void {
    this.#lines.push(this.#options.paint.strong(visible(text)), '');
  }

  #value({ id, title, shown, formula, inputs, decidedBy, assumes, source }: ValueRow): void {
    this.#entry(`${title}: ${shown}`, id);
    this.#write(`= ${formula}${decidedBy === undefined ? '' : `, ${decidedBy}`}`, 2);
    for (const input of inputs) this.#write(this.#inputText(input), 2);
    if (assumes !== undefined) this.#write(`Default: ${assumes}.`, 2);
    this.#write(`Source: ${source}.`, 2);
    this.#lines.push('');
  }

  #inputText({ name, shown, key, id, place, assumed }: InputRow): string {
    const at = place === undefined ? '' : `, ${this.#options.nameOf(place.path)}:${place.line}`;
    const origin = [key ?? id ?? '', at].join('');
    const value = assumed === undefined ? shown : `${shown}, a default: ${assumed}`;
    return `${name} = ${value}${origin === '' ? '' : ` (${origin})`}`;
  }

  #unavailable({ id, title, reason }: UnavailableRow): void {
    this.#entry(`${title}: not available`, id);
    this.#write(reason, 2);
    this.#lines.push('');
  }

  #window({ title, setpoint, set, missing, bounds, recommended, rule }: WindowSheet): void {
    const value = set ?? (missing.length === 0 ? 'not set' : `not known, lacks ${missing.join(', ')}`);
    this.#entry(`${title}: ${value}`, setpoint);
    for (const bound of bounds) this.#write(boundText(bound), 2);
    const advice = recommended === undefined ? 'no recommendation' : `recommended: ${recommended}`;
    this.#write(`${advice}${rule === undefined ? '' : ` (${rule})`}`, 2);
    this.#lines.push('');
  }

  #entry(text: string, id: string): void {
    const { strong, faint } = this.#options.paint;
    this.#lines.push(`${STEP}${strong(visible(text))}  ${faint(visible(id))}`);
  }

  #write(text: string, depth: number): void {
    this.#lines.push(...wrap(visible(text), this.#options.width, STEP.repeat(depth)));
  }
}

function boundText({ side, shown, name, weight, case: inCase, corner, margin, source, missing }: BoundRow): string {
  if (shown === undefined) return `${side}: not known, ${name}; lacks ${missing.join(', ')}`;
  const details = [
    inCase === undefined ? '' : ` in the case '${inCase}'`,
    corner === undefined ? '' : ` with ${corner}`,
    `; ${weight}`,
    margin === undefined ? '' : `, inside by ${margin}`,
    missing.length === 0 ? '' : `; not known everywhere, lacks ${missing.join(', ')}`,
    `; source: ${source}`,
  ];
  return `${side} ${shown}, ${name}${details.join('')}`;
}

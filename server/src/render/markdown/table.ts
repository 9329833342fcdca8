import { escapeMarkdown } from './escape.ts';

/** A table of cells that are Markdown already. */
export function markdownTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

/** A table of plain texts, from documents among others. */
export function textTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const escaped = (cells: readonly string[]) => cells.map(escapeMarkdown);
  return markdownTable(escaped(head), rows.map(escaped));
}

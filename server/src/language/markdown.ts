/** Text of documents as Markdown that shows it and does nothing else. */
export function escaped(text: string): string {
  return text.replace(/[\\`*_{}[\]()#+!|<>~&]/g, '\\$&').replace(/[\r\n]+/g, ' ');
}

/** Text as code; a backtick in it does not end it. */
export function code(text: string): string {
  return `\`${text.replace(/[\r\n]+/g, ' ').replaceAll('`', '´')}\``;
}

export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

export function paragraphs(parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined && part !== '').join('\n\n');
}

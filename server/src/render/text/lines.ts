/** Breaks a text between words so that no line is wider than `width` characters, its indent included. */
export function wrap(text: string, width: number, indent: string, first = indent): readonly string[] {
  const lines: string[] = [];
  let line = first;
  let isEmpty = true;
  for (const word of text.split(' ')) {
    if (!isEmpty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent;
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
  }
  return [...lines, line];
}

/** `1 error`, `2 errors`. */
export function counted(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}

/** The line that defers to those who know the machine and the site. */
export const DEFERS =
  "These are aids to a competent person's judgement. The maker's manual, the site's rules, local codes and licensed practice come first.";

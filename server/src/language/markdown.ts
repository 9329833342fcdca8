import { visible } from '../render/escape.ts';

/** Text as code; a backtick in it does not end it. */
export function code(text: string): string {
  return `\`${visible(text.replace(/[\r\n]+/g, ' ')).replaceAll('`', '´')}\``;
}

export function paragraphs(parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined && part !== '').join('\n\n');
}

import { visible } from '../escape.ts';

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Text fit for an attribute or the content of an element: no markup, and no character that XML does not allow. */
export function escapeXml(text: string): string {
  return visible(text)
    .replace(/[\uD800-\uDFFF]/gu, '\uFFFD')
    .replace(/[\uFFFE\uFFFF]/g, '\uFFFD')
    .replace(/[&<>"]/g, (character) => ENTITIES[character] ?? '');
}

/** Lines, each escaped by itself. */
export function xmlLines(lines: readonly string[]): string {
  return lines.map(escapeXml).join('\n');
}

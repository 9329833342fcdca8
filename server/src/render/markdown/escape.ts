import { visible } from '../escape.ts';

/** Text from a document on one line of Markdown, also within a table's cell: nothing in it is markup, HTML or a link. */
export function escapeMarkdown(text: string): string {
  return unlinked(visible(text.replace(/\s+/g, ' ')).replace(/[\\`*_{}[\]#|~!]/g, '\\$&'))
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;');
}

/** Addresses and names become links by themselves, some of them behind a backslash too; a blank without width prevents it. */
function unlinked(text: string): string {
  return text
    .replace(/:\/\//g, ':\u200b//')
    .replace(/www\./gi, (start) => `${start.slice(0, -1)}\\.`)
    .replace(/@/g, '@\u200b')
    .replace(/#(?=\d)/g, '#\u200b');
}

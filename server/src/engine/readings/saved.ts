import { parseText } from '../syntax/parse.ts';
import { NONE } from '../syntax/tree.ts';
import { withArticle } from '../text/words.ts';
import type { FormFields } from './bring-back.ts';

/** What a text file that came back is: a document, the fields of a form, or neither, with the reason. */
export type Saved = { readonly document: string } | { readonly fields: FormFields } | { readonly refused: string };

const LABEL = 'readings/1';

/** Signs that no text has: what does not decode, and control characters. */
const BINARY = /[\u0000-\u0008\u000e-\u001a\ufffd]/;

/** Tells what a saved page, or a JSON or YAML file, holds. */
export function savedIn(text: string): Saved {
  if (BINARY.test(text))
    return { refused: 'It is neither a PDF nor a text: a picture or an office file cannot be read.' };
  const start = text.trimStart();
  if (start.startsWith('<')) return savedInPage(text);
  return start.startsWith('{') ? savedInJson(text) : savedInYaml(text);
}

function savedInYaml(text: string): Saved {
  const { tree } = parseText(text);
  const label = tree.scalar(tree.child(tree.root, 'document'));
  if (label.startsWith('readings/')) return { document: text };
  const is =
    tree.child(tree.root, 'document') === NONE
      ? "It has no key 'document' that says what it is"
      : `It is ${withArticle(label)}`;
  return { refused: `${is}; a filled form, a saved field page or a ${LABEL} is due here.` };
}

function savedInJson(text: string): Saved {
  const content = parsed(text);
  if (content === undefined)
    return { refused: 'It begins like JSON and cannot be read as such; perhaps it was cut off.' };
  if (typeof content.document === 'string' && content.document.startsWith('readings/')) return { document: text };
  if (Array.isArray(content.stages)) return { refused: 'It is the checklist itself, and nobody has filled it in.' };
  const fields = Object.entries(content).map(([name, value]) => [name, fieldText(value)] as const);
  const isForm = Object.keys(content).some((name) => name.startsWith('setproof.'));
  const lost = fields.find(([, value]) => value === undefined);
  if (!isForm)
    return {
      refused: `It is JSON of another kind: neither a ${LABEL} nor the fields of a form with 'setproof.fingerprint'.`,
    };
  if (lost !== undefined) return { refused: `Its field '${lost[0]}' is neither a text nor a tick.` };
  return { fields: new Map(fields.map(([name, value]) => [name, value ?? ''])) };
}

function parsed(text: string): Readonly<Record<string, unknown>> | undefined {
  try {
    const content: unknown = JSON.parse(text);
    return typeof content === 'object' && content !== null && !Array.isArray(content)
      ? (content as Record<string, unknown>)
      : undefined;
  } catch {
    return undefined;
  }
}

function fieldText(value: unknown): string | undefined {
  if (value === null || value === false) return '';
  if (value === true) return 'yes';
  return typeof value === 'string' || typeof value === 'number' ? String(value) : undefined;
}

/** Elements in which a page may keep its readings; the first two as text that is escaped. */
const KEEPERS = ['pre', 'textarea', 'script'] as const;

/** The readings that a page was saved with. An entry that only the browser held is not in its file. */
function savedInPage(page: string): Saved {
  for (const tag of KEEPERS) {
    for (const content of contentsOf(page, tag)) {
      const text = tag === 'script' ? content : unescaped(content);
      if (/^\s*document: ["']?readings\//.test(text)) return { document: text.trimStart() };
    }
  }
  return {
    refused:
      'The page holds no readings: what is typed into a field page stays in its browser. Open it there, and save the readings with its own button.',
  };
}

function contentsOf(page: string, tag: string): readonly string[] {
  const lower = page.toLowerCase();
  const found: string[] = [];
  for (let at = lower.indexOf(`<${tag}`); at >= 0; at = lower.indexOf(`<${tag}`, at + 1)) {
    const start = lower.indexOf('>', at);
    const end = start < 0 ? -1 : lower.indexOf(`</${tag}`, start);
    if (end < 0) break;
    found.push(page.slice(start + 1, end));
    at = end;
  }
  return found;
}

const CHARACTERS: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', '#39': "'", amp: '&' };

function unescaped(text: string): string {
  return text.replace(/&(lt|gt|quot|#39|amp);/g, (_, name: string) => CHARACTERS[name] ?? '');
}

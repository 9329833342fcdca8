import { type Document, NONE, type NodeIndex, readDocument, type Shape, type Span } from '../engine/index.ts';

/** Where a key is being written. */
export interface KeyPlace {
  readonly at: 'key';
  /** Shape of the mapping that the key is for. */
  readonly parent: Shape;
  /** Dotted key of that mapping. */
  readonly path: string;
  readonly present: readonly string[];
  readonly token: Span;
  readonly written: string;
  readonly inFlow: boolean;
  /** Column of the key, for what goes below it. */
  readonly column: number;
  /** Whether a colon stands behind it already. */
  readonly hasColon: boolean;
}

/** Where a value is being written. */
export interface ValuePlace {
  readonly at: 'value';
  readonly shape: Shape;
  readonly path: string;
  readonly token: Span;
  /** What stands before the cursor. */
  readonly written: string;
  readonly inFlow: boolean;
}

const PROBE = 'x_probe';

/**
 * What is due at an offset. A text that is being written seldom parses, so a stand-in is put at the cursor, and where it
 * lands in the tree says what it stands for.
 */
export function placeAt({ path, source }: Document, offset: number): KeyPlace | ValuePlace | undefined {
  const { text } = source;
  const closers = openFlows(text.slice(0, offset));
  const inFlow = closers !== '';
  const segment = segmentBefore(text, offset, inFlow);
  const value = /^\s*(?:- +)*(?:"[^"]*"|'[^']*'|[^\s:#'"{}[\],]+)\s*:(?:\s+(.*))?$/s.exec(segment);
  const request = { path, text, offset, inFlow, closers };
  if (value !== null) return valuePlace(request, (value[1] ?? '').length);
  const key = /^\s*(?:- +)*([^\s:]*)$/s.exec(segment);
  if (key === null) return undefined;
  const length = (key[1] ?? '').length;
  return keyPlace(request, length) ?? valuePlace(request, length);
}

interface Request {
  readonly path: string;
  readonly text: string;
  readonly offset: number;
  readonly inFlow: boolean;
  readonly closers: string;
}

function keyPlace({ path, text, offset, inFlow, closers }: Request, length: number): KeyPlace | undefined {
  const start = offset - length;
  const end = offset + (/^[\w.-]*/.exec(text.slice(offset)) as RegExpExecArray)[0].length;
  const hasColon = /^["']?\s*:/.test(text.slice(end));
  const probe = hasColon ? PROBE : `${PROBE}: 0`;
  const found = findProbe(path, text, { start, end }, probe, hasColon ? `${PROBE}: 0${closers}` : probe + closers);
  if (found === undefined) return undefined;
  const { tree, shapes } = found.document;
  const parent = tree.parent(found.node);
  const shape = shapes[parent];
  if (shape === undefined || (shape.keys === undefined && shape.open === undefined)) return undefined;
  const present = [...tree.children(parent)].filter((each) => each !== found.node).map((each) => tree.key(each));
  const token = { start, end };
  const column = start - (text.lastIndexOf('\n', start - 1) + 1);
  const written = text.slice(start, offset);
  return { at: 'key', parent: shape, path: tree.path(parent), present, token, written, inFlow, column, hasColon };
}

/** Tries the stand-in in the text as it is; where the rest does not parse with it, with what is open closed behind it. */
function findProbe(path: string, text: string, { start, end }: Span, probe: string, closed: string) {
  const candidates = [text.slice(0, start) + probe + text.slice(end), text.slice(0, start) + closed];
  for (const candidate of candidates) {
    const document = readDocument(path, candidate);
    const node = probeIn(document);
    if (node !== NONE) return { document, node };
  }
  return undefined;
}

function probeIn({ tree }: Document): NodeIndex {
  for (let node = 0; node < tree.size; node++) if (tree.key(node) === PROBE && tree.hasKey(node)) return node;
  return NONE;
}

function valuePlace({ path, text, offset, inFlow, closers }: Request, length: number): ValuePlace | undefined {
  const start = offset - length;
  const end = Math.max(offset, endOfValue(text, start, inFlow));
  const written = text.slice(start, offset).replace(/^["']/, '');
  const before = /[:,-]$/.test(text.slice(0, start)) ? `${text.slice(0, start)} ` : text.slice(0, start);
  for (const candidate of [`${before}0${text.slice(end)}`, `${before}0${closers}`]) {
    const { tree, shapes } = readDocument(path, candidate);
    const node = tree.nodeAt(before.length);
    const shape = shapes[node];
    if (shape !== undefined && tree.isScalar(node) && tree.scalar(node) === '0') {
      return { at: 'value', shape, path: tree.path(node), token: { start, end }, written, inFlow };
    }
  }
  return undefined;
}

function endOfValue(text: string, start: number, inFlow: boolean): number {
  const end = inFlow ? /[,}\]\r\n]| #|$/ : /[\r\n]| #|$/;
  const rest = text.slice(start);
  return start + rest.slice(0, end.exec(rest)?.index).trimEnd().length;
}

function segmentBefore(text: string, offset: number, inFlow: boolean): string {
  const line = Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
  if (!inFlow) return text.slice(line, offset);
  const opened = Math.max(...['{', '[', ','].map((each) => text.lastIndexOf(each, offset - 1))) + 1;
  return text.slice(opened, offset);
}

/** The brackets that would close the flow collections open at the end of a text, innermost first. */
function openFlows(text: string): string {
  let open = '';
  for (let at = 0; at < text.length; at++) {
    const char = text.charAt(at);
    const starts = /[\s,:{[]/.test(at === 0 ? '\n' : text.charAt(at - 1));
    if (char === '#' && starts) at = endOf(text, '\n', at);
    else if ((char === '"' || char === "'") && starts) at = endOf(text, char, at + 1);
    else if ((char === '{' || char === '[') && (open !== '' || startsValue(text, at)))
      open = (char === '{' ? '}' : ']') + open;
    else if (open !== '' && char === open.charAt(0)) open = open.slice(1);
  }
  return open;
}

/** In block style a bracket opens something only where a value begins; elsewhere it is a letter like others. */
function startsValue(text: string, at: number): boolean {
  return /(?:^|\n|:|-)[ \t]*$/.test(text.slice(Math.max(0, at - 40), at));
}

function endOf(text: string, mark: string, from: number): number {
  const at = text.indexOf(mark, from);
  return at < 0 ? text.length : at;
}

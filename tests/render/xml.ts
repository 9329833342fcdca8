/** An element of a parsed XML text. */
export interface Element {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly Element[];
  readonly text: string;
}

interface Open {
  name: string;
  attributes: Map<string, string>;
  children: Element[];
  text: string;
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };
const ATTRIBUTE = /\s+([a-zA-Z:_-]+)="([^"<]*)"/y;
const CHARACTER = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/u;

/**
 * Reads a small XML text, the strict way: quoted attributes that stand once, closed elements, known entities, characters
 * that XML allows. @throws Error at the first that is wrong
 */
export function parseXml(source: string): Element {
  if (CHARACTER.test(source)) throw new Error('a character that XML does not allow');
  const root: Open = { name: '', attributes: new Map(), children: [], text: '' };
  const stack = [root];
  let at = 0;
  while (at < source.length) {
    const next = source.indexOf('<', at);
    const end = next < 0 ? source.length : next;
    stack.at(-1)!.text += unescaped(source.slice(at, end));
    if (next < 0) break;
    at = readTag(source, next, stack);
  }
  if (stack.length !== 1) throw new Error(`<${stack.at(-1)!.name}> is not closed`);
  if (root.children.length !== 1) throw new Error(`${root.children.length} roots`);
  return root.children[0]!;
}

function readTag(source: string, from: number, stack: Open[]): number {
  const closing = /^<\/([a-z-]+)>/.exec(source.slice(from, from + 40));
  if (closing !== null) {
    const open = stack.pop()!;
    if (open.name !== closing[1]) throw new Error(`</${closing[1]}> closes <${open.name}>`);
    return from + closing[0].length;
  }
  const name = /^<([a-z-]+)/.exec(source.slice(from, from + 40));
  if (name === null) throw new Error(`no tag at ${from}: ${source.slice(from, from + 20)}`);
  const element: Open = { name: name[1]!, attributes: new Map(), children: [], text: '' };
  let at = from + name[0].length;
  for (;;) {
    ATTRIBUTE.lastIndex = at;
    const found = ATTRIBUTE.exec(source);
    if (found === null) break;
    if (element.attributes.has(found[1]!)) throw new Error(`${found[1]} stands twice`);
    element.attributes.set(found[1]!, unescaped(found[2]!));
    at = ATTRIBUTE.lastIndex;
  }
  const end = /^\s*(\/?)>/.exec(source.slice(at, at + 10));
  if (end === null) throw new Error(`<${element.name}> goes wrong: ${source.slice(at, at + 30)}`);
  stack.at(-1)!.children.push(element);
  if (end[1] === '') stack.push(element);
  return at + end[0].length;
}

function unescaped(text: string): string {
  return text.replace(/&([^;]*);?/g, (whole, name: string) => {
    const character = ENTITIES[name];
    if (character === undefined || !whole.endsWith(';')) throw new Error(`an entity that XML does not know: ${whole}`);
    return character;
  });
}

/** An element and all below it. */
export function all(element: Element): readonly Element[] {
  return [element, ...element.children.flatMap(all)];
}

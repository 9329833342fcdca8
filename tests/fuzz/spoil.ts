import type { Chance } from './random.ts';

/** What has broken parsers before: signs of YAML, numbers at the edge, half characters, other scripts. */
const TOKENS = [
  ...[
    '{',
    '}',
    '[',
    ']',
    ':',
    ': ',
    '- ',
    '? ',
    '&a ',
    '*a',
    '!!str ',
    '|\n',
    '>-\n',
    '"',
    "'",
    '#',
    '\t',
    '\r',
    '\n\n',
    ',',
  ],
  ...[
    '---\n',
    '...\n',
    '%YAML 1.2\n',
    '<<: ',
    '\u0000',
    '\uFEFF',
    '\uD800',
    '\uDFFF',
    '\u2028',
    '\u0085',
    '\u202E',
    '𝟘',
    'Ω',
  ],
  ...[
    '1e999',
    '-0',
    '0x10',
    '1_000',
    '1,850 m',
    '.inf',
    '.nan',
    '-1e-320',
    '99999999999999999999 m',
    '1 m +- 5 m',
    '1 bar = 2 bar',
  ],
  ...[
    'bar(g)',
    'degF',
    'm3/d/bar',
    'K',
    '#6 AWG',
    '2 7/8 in',
    'null',
    '~',
    'yes',
    '__proto__: 1\n',
    'constructor',
    'toString',
  ],
  ...['../../../etc/passwd', '/dev/stdin', 'file:///x', '<script>', ']]>', '\u001b[31m', '`'],
];

type Spoiler = (text: string, chance: Chance, others: readonly string[]) => string;

const SPOILERS: readonly Spoiler[] = [
  (text, chance) => insert(text, chance.under(text.length + 1), chance.one(TOKENS)),
  (text, chance) => insert(text, chance.under(text.length + 1), String.fromCharCode(chance.under(0x10000))),
  (text, chance) => {
    const { start, end } = stretch(text, chance, 30);
    return text.slice(0, start) + text.slice(end);
  },
  (text, chance) => {
    const { start, end } = stretch(text, chance, 200);
    return insert(text, end, text.slice(start, end).repeat(1 + chance.under(3)));
  },
  (text, chance, others) => {
    const other = chance.one(others);
    const { start, end } = stretch(other, chance, 300);
    return insert(text, chance.under(text.length + 1), other.slice(start, end));
  },
  (text, chance) => withLines(text, chance, (lines, at) => lines.splice(at, 1, ...indent(lines[at] ?? '', chance))),
  (text, chance) =>
    withLines(text, chance, (lines, at) => lines.splice(at, 0, lines[chance.under(lines.length)] ?? '')),
  // The value of an entry becomes something else: the structure stands, what it says does not.
  (text, chance) =>
    withLines(text, chance, (lines, at) =>
      lines.splice(
        at,
        1,
        (lines[at] ?? '').replace(/: .*/, () => `: ${chance.one(TOKENS)}`),
      ),
    ),
  (text, chance) =>
    text.replace(/\d+(\.\d+)?/g, (number) =>
      chance.under(40) === 0 ? chance.one(['0', '-1', '1e308', '', `${number}000`, '0.0000001']) : number,
    ),
];

/** A text with a few things done to it that no author would do on purpose. */
export function spoilt(text: string, chance: Chance, others: readonly string[]): string {
  let now = text;
  for (let times = 1 + chance.under(4); times > 0; times--) now = chance.one(SPOILERS)(now, chance, others);
  return now;
}

function insert(text: string, at: number, piece: string): string {
  return text.slice(0, at) + piece + text.slice(at);
}

function stretch(text: string, chance: Chance, longest: number) {
  const start = chance.under(text.length + 1);
  return { start, end: Math.min(text.length, start + chance.under(longest)) };
}

function withLines(text: string, chance: Chance, change: (lines: string[], at: number) => void): string {
  const lines = text.split('\n');
  change(lines, chance.under(lines.length));
  return lines.join('\n');
}

function indent(line: string, chance: Chance): readonly string[] {
  return [`${' '.repeat(chance.under(8))}${line.trimStart()}`];
}

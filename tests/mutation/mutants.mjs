// Finds what can be changed in a source text: each constant by one per cent, each sign and comparison the other way; and
// writes the text anew so that each change can be switched on while it runs.
import { parseSync } from 'vite';

const OTHER_SIGN = { '+': '-', '-': '+', '*': '/', '/': '*' };
const OTHER_COMPARISON = { '<': '>', '>': '<', '<=': '>=', '>=': '<=' };
const SWAPS = { ...OTHER_SIGN, ...OTHER_COMPARISON };
/** Parts of a syntax tree in which nothing is computed. */
const NO_CODE = new Set(['typeAnnotation', 'typeParameters', 'typeArguments', 'returnType', 'superTypeArguments']);
const NO_CODE_AT_ALL = /^(Import|TSInterface|TSTypeAlias|ExportAll)/;

/**
 * @typedef {{start: number, end: number, what: string, opens: string, closes: string, from: number, to: number}} Mutant
 * `start` to `end` is what changes; `from` to `to` the expression around it, which `opens` and `closes` enclose.
 */

/** @returns {Mutant[]} in the order of the text */
export function mutantsOf(source) {
  const found = [];
  walk(parseSync('a.ts', source).program, undefined, (node, parent) => found.push(...mutantsAt(node, parent, source)));
  return found.sort((a, b) => a.start - b.start);
}

/** The text with a switch around each mutant; the first has the number `first`. See switches.mjs. */
export function switched(source, mutants, first) {
  const edits = mutants.flatMap(({ from, to, start, end, opens, closes }, at) => [
    { at: from, text: opens.replace('#', String(first + at)), rank: -to },
    { at: to, text: closes, rank: -from },
    ...(opens.startsWith('$mutation.number')
      ? []
      : [{ at: start, until: end, text: opens === '' ? '' : ',', rank: 0 }]),
  ]);
  edits.sort((a, b) => a.at - b.at || a.rank - b.rank);
  let text = '';
  let done = 0;
  for (const edit of edits) {
    text += source.slice(done, edit.at) + edit.text;
    done = edit.until ?? edit.at;
  }
  return text + source.slice(done);
}

function walk(node, parent, visit) {
  if (NO_CODE_AT_ALL.test(node.type)) return;
  visit(node, parent);
  for (const [key, value] of Object.entries(node)) {
    if (NO_CODE.has(key)) continue;
    for (const child of Array.isArray(value) ? value : [value]) {
      if (typeof child?.type === 'string') walk(child, node, visit);
    }
  }
}

function mutantsAt(node, parent, source) {
  if (node.type === 'Literal' && typeof node.value === 'number') return isName(node, parent) ? [] : [numberAt(node)];
  if (node.type === 'UnaryExpression') return node.operator === '-' ? minusAt(node) : [];
  if (node.type === 'BinaryExpression' && node.operator in SWAPS) return swapAt(node, source);
  return [];
}

/** An index or a key picks something out, and computes nothing. */
function isName(node, parent) {
  return (parent.type === 'MemberExpression' && parent.property === node) || parent.key === node;
}

function numberAt({ start, end, value, raw }) {
  // Zero has no per cent, and small whole numbers are counts and indices as often as constants: those move by one.
  const next = Number.isInteger(value) && value < 3 ? value + 1 : value * 1.01;
  return {
    start,
    end,
    from: start,
    to: end,
    what: `${raw} → ${next}`,
    opens: '$mutation.number(#,',
    closes: `,${next})`,
  };
}

/** The sign of a number is the number's; that of anything else can be left out. */
function minusAt({ start, end, argument }) {
  if (argument.type === 'Literal') return [];
  return [{ start, end: start + 1, from: start, to: end, what: '-… → …', opens: '$mutation.minus(#', closes: ')' }];
}

function swapAt({ start, end, left, right, operator }, source) {
  if (isText(left) || isText(right)) return [];
  const at = source.indexOf(operator, left.end);
  const what = `${operator} → ${SWAPS[operator]}`;
  return [
    {
      start: at,
      end: at + operator.length,
      from: start,
      to: end,
      what,
      opens: `$mutation['${operator}'](#,`,
      closes: ')',
    },
  ];
}

function isText(node) {
  return node.type === 'TemplateLiteral' || typeof node.value === 'string';
}

export function lineOf(source, offset) {
  return source.slice(0, offset).split('\n').length;
}

import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CheckedFile,
  findUnit,
  type Quantity,
  type Repository,
  toUnit,
} from '../../../server/src/engine/index.ts';
import { examples } from '../../support/chance.ts';
import { checked, openProject, SAMPLES } from '../../support/project.ts';

const WELLS = ['pad-a/qm-a1', 'pad-b/qm-b2', 'with-mistakes/qm-x1', 'with-mistakes/qm-x2'].map((each) =>
  join(SAMPLES, `${each}.yaml`),
);

const opened = new Map(
  WELLS.map((path) => [
    path,
    openProject(path, path.includes('with-mistakes') ? join(SAMPLES, 'with-mistakes') : SAMPLES),
  ]),
);
const well = fc.constantFrom(...WELLS);

function withText(path: string, text: string): CheckedFile {
  return checked((opened.get(path) as Repository).update([{ path, text }]), path);
}

/** What is found, without the places, which move with the text. */
function found({ findings, statuses }: CheckedFile) {
  return {
    findings: findings.map(({ check, key, severity, message }) => `${key} ${check} ${severity} ${message}`).sort(),
    statuses: [...statuses].map(([check, { status }]) => `${check} ${status}`).sort(),
  };
}

/** Lines before which a comment may stand: those where an entry of a block begins, outside of any `{` or `[`. */
function blockLines(text: string): readonly number[] {
  let depth = 0;
  return text.split('\n').flatMap((line, at) => {
    const isOutside = depth === 0 && /^\s*[\w-]/.test(line);
    for (const sign of line.replace(/#.*/, '')) depth += /[{[]/.test(sign) ? 1 : /[}\]]/.test(sign) ? -1 : 0;
    return isOutside ? [at] : [];
  });
}

function leaves({ document }: CheckedFile): readonly { readonly node: number; readonly quantity: Quantity }[] {
  return document.quantities.flatMap((quantity, node) => (quantity === undefined ? [] : [{ node, quantity }]));
}

/** A milliohm is taken for a slip where a megohm is due, and told so. */
const SUSPECT = 'mohm';

/** The same quantity in another of its usual units, to as many digits as a number has. */
function inOtherUnit({ kind, value, unit, reference, tolerance }: Quantity, pick: number): string | undefined {
  const units = kind.usual.filter(
    (each) => each !== unit && each !== SUSPECT && findUnit(each)?.unit.scale === 'linear',
  );
  const other = units[pick % Math.max(1, units.length)];
  if (other === undefined || kind.alternate !== undefined || tolerance > 0 || reference !== undefined) return undefined;
  const number = toUnit(value, kind, other);
  return number === undefined || /e/.test(String(number)) ? undefined : `${number} ${other}`;
}

describe('what is found', () => {
  it('does not depend on comments and blank lines', () => {
    fc.assert(
      fc.property(
        well,
        fc.array(fc.nat(), { maxLength: 12 }),
        fc.constantFrom('', '# a note', '   # {[: "'),
        (path, places, comment) => {
          const before = withText(path, (opened.get(path) as Repository).document(path)?.source.text ?? '');
          const lines = before.document.source.text.split('\n');
          const free = blockLines(before.document.source.text);
          for (const at of [...new Set(places.map((place) => free[place % free.length] ?? 0))].sort((a, b) => b - a)) {
            lines.splice(at, 0, comment);
          }
          expect(found(withText(path, lines.join('\n')))).toEqual(found(before));
        },
      ),
      examples(60),
    );
  });

  it('does not depend on the unit that an entry is written in', () => {
    fc.assert(
      fc.property(well, fc.nat(), fc.nat(), (path, place, pick) => {
        const before = withText(path, (opened.get(path) as Repository).document(path)?.source.text ?? '');
        const all = leaves(before);
        const { node, quantity } = all[place % all.length] as (typeof all)[number];
        const written = inOtherUnit(quantity, pick);
        fc.pre(written !== undefined);
        const { start, end } = before.document.tree.span(node);
        const { text } = before.document.source;
        const after = withText(path, text.slice(0, start) + written + text.slice(end));
        const name = `${before.document.tree.path(node)}: ${written}`;
        const judged = (file: CheckedFile) => found(file).statuses.filter((each) => !/^(units|tolerance)\./.test(each));
        expect(judged(after), name).toEqual(judged(before));
      }),
      examples(200),
    );
  });

  it('stands at what it speaks of', () => {
    for (const path of WELLS) {
      const { document, findings } = withText(path, (opened.get(path) as Repository).document(path)?.source.text ?? '');
      const { tree, source } = document;
      for (const { key, span, range, check } of findings) {
        expect(source.rangeOf(span), check).toEqual(range);
        const node = tree.find(key);
        if (key === '' || node < 0) continue;
        const [whole, own] = [tree.span(node), tree.keySpan(node)];
        // A fault of syntax reaches over key and value; anything else stands inside of one of them.
        const touches = span.start <= whole.end && span.end >= Math.min(whole.start, own.start);
        expect(touches, `${check} at ${key}: '${source.slice(span)}'`).toBe(true);
      }
    }
  });
});

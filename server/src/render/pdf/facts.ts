import type { Block } from './flow.ts';
import type { Picture } from './qr.ts';
import { drawLines, type Setter, STYLES } from './setter.ts';

const CODE = 84;
const NAME = 76;

/** Names and values of what a document is about, with its code beside them. */
export function factsBlock(
  setter: Setter,
  facts: readonly (readonly [name: string, value: string])[],
  code: Picture | undefined,
): Block {
  const { x, width } = setter.column;
  const wide = code === undefined ? width : width - CODE - 14;
  const rows = facts.map(([name, value]) => {
    const [left, right] = [setter.lines(name, STYLES.note, NAME - 6), setter.lines(value, STYLES.strong, wide - NAME)];
    return { left, right, height: Math.max(left.height, right.height) + 3 };
  });
  const height = rows.reduce((total, row) => total + row.height, 0);
  return {
    height: Math.max(code === undefined ? 0 : CODE, height) + 4,
    draw: (canvas, top) => {
      let at = top;
      for (const row of rows) {
        const line = at;
        canvas.tagged('P', () => {
          drawLines(canvas, row.left, x, line - 1);
          drawLines(canvas, row.right, x + NAME, line);
        });
        at -= row.height;
      }
      if (code !== undefined) canvas.picture(code, x + width - CODE, top - CODE, CODE);
    },
  };
}

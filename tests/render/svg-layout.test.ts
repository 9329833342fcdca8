import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import '../support/chance.ts';
import { rounded, ticks } from '../../server/src/render/svg/axis.ts';
import { clearest, hang, spread } from '../../server/src/render/svg/labels.ts';

const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('ticks', () => {
  it('stand at multiples of 1, 2 or 5', () => {
    expect(ticks({ from: 0, to: 150 }, 8).map(({ text }) => text)).toEqual([
      '0',
      '20',
      '40',
      '60',
      '80',
      '100',
      '120',
      '140',
    ]);
    expect(ticks({ from: -0.3, to: 0.3 }, 4).map(({ text }) => text)).toEqual(['-0.2', '0.0', '0.2']);
    expect(ticks({ from: 250, to: 450 }, 5).map(({ text }) => text)).toEqual(['250', '300', '350', '400', '450']);
  });

  it('are few, inside the range, and read as the numbers that they mark', () => {
    const range = fc.tuple(finite(-1e5, 1e5), finite(1e-3, 1e5));
    fc.assert(
      fc.property(range, fc.integer({ min: 2, max: 12 }), ([from, size], most) => {
        const found = ticks({ from, to: from + size }, most);
        expect(found.length).toBeLessThanOrEqual(most + 1);
        for (const { number, text } of found) {
          expect(Math.abs(Number(text) - number)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(number)));
          expect(number).toBeGreaterThanOrEqual(from - 1e-6 * size);
          expect(number).toBeLessThanOrEqual(from + size * (1 + 1e-6));
        }
      }),
    );
  });

  it('close a rounded range at both ends', () => {
    const range = rounded({ from: 13, to: 487 }, 6);
    const marks = ticks(range, 6).map(({ number }) => number);
    expect([marks[0], marks.at(-1)]).toEqual([range.from, range.to]);
    expect(range).toEqual({ from: 0, to: 500 });
  });
});

describe('labels in a column', () => {
  it('stay where they belong if there is room', () => {
    expect(spread([20, 60, 100], [13, 13, 13], { from: 0, to: 200 })).toEqual([20, 60, 100]);
  });

  it('share the move, keep their order and never overlap', () => {
    const wanted = fc.array(finite(0, 300), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(wanted, (places) => {
        const heights = places.map((_, at) => (at % 3 === 0 ? 26 : 13));
        const put = spread(places, heights, { from: 0, to: 500 });
        const order = places.map((_, at) => at).sort((a, b) => places[a]! - places[b]! || a - b);
        for (let at = 1; at < order.length; at++) {
          const [above, below] = [order[at - 1]!, order[at]!];
          expect(put[below]! - put[above]!).toBeGreaterThanOrEqual((heights[above]! + heights[below]!) / 2 - 1e-6);
        }
        for (const [at, place] of put.entries()) {
          expect(place - heights[at]! / 2).toBeGreaterThanOrEqual(-1e-6);
          expect(place + heights[at]! / 2).toBeLessThanOrEqual(500 + 1e-6);
        }
      }),
    );
  });
});

describe('labels that hang from leaders', () => {
  it('share a row where they are far apart', () => {
    const labels = [0, 100, 200].map((x) => ({ x, width: 80 }));
    expect(hang(labels)).toEqual([0, 0, 0]);
  });

  it('overlap neither each other nor the leader of another', () => {
    const label = fc.record({ x: finite(0, 400), width: finite(10, 150) });
    fc.assert(
      fc.property(fc.array(label, { minLength: 2, maxLength: 9 }), (labels) => {
        const rows = hang(labels);
        for (const [a, one] of labels.entries()) {
          for (const [b, other] of labels.entries()) {
            const isCrossed = other.x > one.x && other.x <= one.x + one.width;
            if (isCrossed) expect(rows[b]).toBeLessThan(rows[a]!);
          }
        }
      }),
    );
  });
});

describe('a label at a point', () => {
  it('moves off the lines through the point', () => {
    const level: [number, number][] = [
      [0, 100],
      [200, 100],
    ];
    const rising: [number, number][] = [
      [0, 150],
      [200, 50],
    ];
    const box = clearest([100, 100], 60, [level, rising], []);
    for (const [x1, y1, x2, y2] of [
      [0, 100, 200, 100],
      [0, 150, 200, 50],
    ] as const) {
      for (let share = 0; share <= 1; share += 0.01) {
        const [x, y] = [x1 + share * (x2 - x1), y1 + share * (y2 - y1)];
        expect(x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height).toBe(false);
      }
    }
  });

  it('moves off a label that is there already', () => {
    const first = clearest([100, 100], 60, [], []);
    const second = clearest([102, 101], 60, [], [first]);
    const isApart = second.x >= first.x + first.width || first.x >= second.x + second.width;
    expect(isApart || Math.abs(second.y - first.y) >= first.height).toBe(true);
  });
});

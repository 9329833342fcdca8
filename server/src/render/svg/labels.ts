import { type Anchor, LETTER, type Point } from './drawing.ts';

/**
 * Heights for labels that stand beside each other in a column: each as near to where it belongs as the others let it.
 * Labels that would overlap share the distance that they are moved, and none passes another.
 * @param wanted where each belongs, in any order; @param heights what each takes
 * @returns where each goes, in the order given
 */
export function spread(
  wanted: readonly number[],
  heights: readonly number[],
  { from, to }: { readonly from: number; readonly to: number },
): readonly number[] {
  const order = wanted.map((_, at) => at).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0) || a - b);
  const blocks: Block[] = [];
  for (const at of order) {
    blocks.push(blockOf(at, wanted[at] ?? 0, heights[at] ?? 0));
    settle(blocks, from, to);
  }
  const placed = new Array<number>(wanted.length).fill(0);
  for (const { top, members } of blocks) for (const [at, offset] of members) placed[at] = top + offset;
  return placed;
}

/** Labels that touch each other. */
interface Block {
  readonly top: number;
  readonly height: number;
  /** Sum over its members of where the top of the block would have to be for each to stand where it belongs. */
  readonly pull: number;
  readonly members: readonly (readonly [at: number, offset: number])[];
}

function blockOf(at: number, wanted: number, height: number): Block {
  return { top: wanted - height / 2, height, pull: wanted - height / 2, members: [[at, height / 2]] };
}

/** Puts the last block into the column, and joins it with those above while they overlap. */
function settle(blocks: Block[], from: number, to: number): void {
  let last = bounded(blocks.pop() as Block, from, to);
  for (let above = blocks.at(-1); above !== undefined && above.top + above.height > last.top; above = blocks.at(-1)) {
    blocks.pop();
    last = bounded(joined(above, last), from, to);
  }
  blocks.push(last);
}

function joined(above: Block, below: Block): Block {
  const moved = below.members.map(([at, offset]) => [at, offset + above.height] as const);
  const members = [...above.members, ...moved];
  const pull = above.pull + below.pull - below.members.length * above.height;
  return { top: pull / members.length, height: above.height + below.height, pull, members };
}

function bounded(block: Block, from: number, to: number): Block {
  return { ...block, top: Math.max(from, Math.min(block.top, to - block.height)) };
}

/**
 * Rows for labels that hang from leaders below an axis, each to the right of its leader, so that no leader crosses a
 * text: what begins further left hangs lower wherever its text would meet another leader.
 * @returns the row of each, counted from zero, in the order given
 */
export function hang(labels: readonly { readonly x: number; readonly width: number }[]): readonly number[] {
  const order = labels.map((_, at) => at).sort((a, b) => (labels[b]?.x ?? 0) - (labels[a]?.x ?? 0) || b - a);
  const rows = new Array<number>(labels.length).fill(0);
  order.forEach((at, place) => {
    const { x, width } = labels[at] ?? { x: 0, width: 0 };
    const met = order.slice(0, place).filter((other) => (labels[other]?.x ?? 0) <= x + width);
    rows[at] = Math.max(-1, ...met.map((other) => rows[other] ?? 0)) + 1;
  });
  return rows;
}

/** The place of a text, from its upper left corner. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Which of its edges lies nearest to what it names. */
  readonly anchor: Anchor;
}

const AWAY = 7;
const SAMPLES = 6;

/** Of the places around a point the one in which a text meets the fewest lines and no other text, the nearest first. */
export function clearest(
  [x, y]: Point,
  width: number,
  lines: readonly (readonly Point[])[],
  taken: readonly Box[],
): Box {
  const height = LETTER;
  const candidates = [1, 2, 3].flatMap((far) => {
    const [up, down] = [y - far * AWAY - height, y + far * AWAY];
    const [right, left] = [x + AWAY, x - AWAY - width];
    const places: readonly (readonly [number, number, Anchor])[] = [
      [right, up, 'start'],
      [left, down, 'end'],
      [right, down, 'start'],
      [left, up, 'end'],
      [x - width / 2, up, 'middle'],
    ];
    return places.map(([boxX, boxY, anchor]): Box => ({ x: boxX, y: boxY, width, height, anchor }));
  });
  const costs = candidates.map((box) => hits(box, lines) + taken.filter((other) => overlap(box, other)).length * 100);
  return candidates[costs.indexOf(Math.min(...costs))] as Box;
}

/** How often lines, taken at close points, run through a box. */
function hits(box: Box, lines: readonly (readonly Point[])[]): number {
  let count = 0;
  for (const line of lines) {
    for (let at = 1; at < line.length; at++) {
      const [x1, y1] = line[at - 1] as Point;
      const [x2, y2] = line[at] as Point;
      for (let part = 0; part < SAMPLES; part++) {
        const share = part / SAMPLES;
        if (contains(box, x1 + share * (x2 - x1), y1 + share * (y2 - y1))) count++;
      }
    }
  }
  return count;
}

function contains({ x, y, width, height }: Box, px: number, py: number): boolean {
  return px > x - 2 && px < x + width + 2 && py > y - 2 && py < y + height + 2;
}

function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

/** Where a text has to be anchored to stand in its box. */
export function anchorPoint({ x, y, width, anchor }: Box): Point {
  const along = anchor === 'start' ? 0 : anchor === 'end' ? width : width / 2;
  return [x + along, y + LETTER - 2];
}

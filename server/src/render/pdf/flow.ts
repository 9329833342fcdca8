import { Canvas, type Faces } from './canvas.ts';

/** Paper in points, with what the foot of the page takes. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Something that stands on one page as a whole. */
export interface Block {
  readonly height: number;
  /** It is not left alone at the end of a page: a heading, or a caution before its step. */
  readonly staysWithNext?: boolean;
  readonly startsPage?: boolean;
  /** Head of the table that the block belongs to; it is repeated on each page. */
  readonly head?: Block | undefined;
  /** Draws downwards from `top`. */
  readonly draw: (canvas: Canvas, top: number) => void;
}

/** Sets blocks on pages from top to bottom. */
export function flow(blocks: readonly Block[], sheet: Sheet, faces: Faces): readonly Canvas[] {
  const pages = new Pages(sheet, faces);
  for (const chain of chainsOf(blocks)) pages.placeChain(chain);
  return pages.canvases;
}

/** Blocks that want to stand together: each ends with one that may be the last of a page. */
function chainsOf(blocks: readonly Block[]): readonly (readonly Block[])[] {
  const chains: Block[][] = [[]];
  for (const block of blocks) {
    chains.at(-1)?.push(block);
    if (block.staysWithNext !== true) chains.push([]);
  }
  return chains.filter((chain) => chain.length > 0);
}

class Pages {
  readonly canvases: Canvas[] = [];
  readonly #sheet: Sheet;
  readonly #faces: Faces;
  #top = 0;
  #head: Block | undefined;

  constructor(sheet: Sheet, faces: Faces) {
    this.#sheet = sheet;
    this.#faces = faces;
  }

  /** A chain that is longer than a page is broken all the same, block by block. */
  placeChain(chain: readonly Block[]): void {
    const { height, top, bottom } = this.#sheet;
    const whole = height - top - bottom;
    const needed = this.#heightOf(chain);
    if (this.canvases.length === 0 || chain[0]?.startsPage === true || needed > this.#room) {
      if (this.#top < height - top || this.canvases.length === 0) this.#turn();
    }
    for (const block of chain) {
      if (needed > whole && this.#heightOf([block]) > this.#room) this.#turn();
      this.#place(block);
    }
  }

  get #room(): number {
    return this.#top - this.#sheet.bottom;
  }

  /** Blocks with the table heads that they bring. */
  #heightOf(blocks: readonly Block[]): number {
    let head = this.#head;
    let height = 0;
    for (const block of blocks) {
      if (block.head !== head && block.head !== undefined) height += block.head.height;
      head = block.head;
      height += block.height;
    }
    return height;
  }

  #turn(): void {
    this.canvases.push(new Canvas(this.#faces));
    this.#top = this.#sheet.height - this.#sheet.top;
    this.#head = undefined;
  }

  #place(block: Block): void {
    if (block.head !== this.#head && block.head !== undefined) this.#draw(block.head);
    this.#head = block.head;
    this.#draw(block);
  }

  #draw(block: Block): void {
    const canvas = this.canvases.at(-1);
    if (canvas !== undefined) block.draw(canvas, this.#top);
    this.#top -= block.height;
  }
}

import { Face } from './face.ts';
import { FONTS } from './generated/fonts.ts';
import type { Picture } from './qr.ts';

export type FaceName = 'regular' | 'bold';

/** The two faces of a form. */
export interface Faces {
  readonly regular: Face;
  readonly bold: Face;
}

export function openFaces(): Faces {
  return { regular: new Face(FONTS.regular), bold: new Face(FONTS.bold) };
}

/** A place on a page in points; `y` is its lower edge, counted from the foot of the page. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A field that is filled in. */
export interface FieldPlace extends Box {
  readonly name: string;
  readonly kind: 'text' | 'lines' | 'tick';
  /** What is to be entered, for those who do not see the page. */
  readonly label: string;
}

/** What a stretch of the page is, in the words of PDF. */
export type Tag = 'H1' | 'H2' | 'H3' | 'P' | 'Form';

/** A stretch of a page in reading order: text by its number on the page, or a field. */
export type Item = { readonly tag: Tag; readonly mark: number } | { readonly field: FieldPlace };

/** One page as it is drawn: its operators, what they are, and its fields. */
export class Canvas {
  readonly operators: string[] = [];
  readonly items: Item[] = [];
  readonly #faces: Faces;
  #marks = 0;
  /** Texts that are drawn now belong to one stretch, which is marked as a whole. */
  #open = false;

  constructor(faces: Faces) {
    this.#faces = faces;
  }

  /** Lines of printable text from a baseline downwards; outside of {@link tagged} they are no content, as a page's number. */
  lines(texts: readonly string[], style: TextStyle, x: number, baseline: number): void {
    const { face, size, leading } = style;
    const words = texts.map((text, index) => `${index === 0 ? '' : 'T* '}${this.#faces[face].encode(text)} Tj`);
    const name = face === 'bold' ? 'F2' : 'F1';
    const show = `BT /${name} ${size} Tf ${leading} TL ${n(x)} ${n(baseline)} Td ${words.join(' ')} ET`;
    this.operators.push(this.#open ? show : artifact(show));
  }

  /** Texts that are one stretch of content; nothing but texts is drawn in it. */
  tagged(tag: Tag, draw: () => void): void {
    const mark = this.#marks++;
    this.items.push({ tag, mark });
    this.operators.push(`/${tag} <</MCID ${mark}>> BDC`);
    this.#open = true;
    draw();
    this.#open = false;
    this.operators.push('EMC');
  }

  frame({ x, y, width, height }: Box, line: number): void {
    this.operators.push(artifact(`${line} w ${n(x)} ${n(y)} ${n(width)} ${n(height)} re S`));
  }

  fill({ x, y, width, height }: Box): void {
    this.operators.push(artifact(`${n(x)} ${n(y)} ${n(width)} ${n(height)} re f`));
  }

  /** The picture that all pages share, in a square. */
  picture({ size }: Picture, x: number, y: number, side: number): void {
    const scale = String(Math.round((side / size) * 1e4) / 1e4);
    this.operators.push(artifact(`q ${scale} 0 0 ${scale} ${n(x)} ${n(y)} cm /Code Do Q`));
  }

  rule(x: number, y: number, width: number, line: number): void {
    this.operators.push(artifact(`${line} w ${n(x)} ${n(y)} m ${n(x + width)} ${n(y)} l S`));
  }

  /** A field with a frame around it, so that it is seen on paper and in every viewer. */
  field(place: FieldPlace): void {
    this.frame(place, 0.6);
    this.items.push({ field: place });
  }
}

export interface TextStyle {
  readonly face: FaceName;
  readonly size: number;
  /** From baseline to baseline. */
  readonly leading: number;
}

function artifact(operators: string): string {
  return `/Artifact BMC ${operators} EMC`;
}

/** A length with two decimals: a hundredth of a point is not seen. */
function n(length: number): string {
  return String(Math.round(length * 100) / 100);
}

import type { PDFArray, PDFContext, PDFDict, PDFRef } from '@cantoo/pdf-lib';
import type { FieldPlace } from './canvas.ts';
import { nameOf, plainString, textString } from './objects.ts';

/** Flags of fields and annotations in PDF 1.7, 12.5.3 and 12.7.3. */
const READ_ONLY = 1;
const MULTILINE = 1 << 12;
const PRINTED = 4;
const HIDDEN = 2;

const TYPED = '/Helv 10 Tf 0 g';

/** Collects fields into the tree of the form. */
export class FormBuilder {
  readonly #context: PDFContext;
  readonly #root: Branch;
  readonly #fonts: PDFDict;
  readonly #empty = new Map<string, PDFRef>();
  readonly #tick: PDFDict;

  constructor(context: PDFContext) {
    this.#context = context;
    this.#root = { kids: context.obj([]), branches: new Map() };
    // What is typed is set in a font that every viewer has; the embedded ones hold what we print.
    this.#fonts = context.obj({
      Helv: { Type: 'Font', Subtype: 'Type1', BaseFont: 'Helvetica', Encoding: 'WinAnsiEncoding' },
      ZaDb: { Type: 'Font', Subtype: 'Type1', BaseFont: 'ZapfDingbats' },
    }) as PDFDict;
    this.#tick = this.#tickAppearance();
  }

  /** A field on a page. */
  place(place: FieldPlace, page: PDFRef, structParent: number): PDFRef {
    const { x, y, width, height, name, label, kind } = place;
    const widget = {
      Type: 'Annot',
      Subtype: 'Widget',
      Rect: [x, y, x + width, y + height].map((each) => Math.round(each * 100) / 100),
      P: page,
      F: PRINTED,
      TU: textString(label),
      StructParent: structParent,
    };
    const own =
      kind === 'tick'
        ? {
            FT: 'Btn',
            AS: 'Off',
            V: 'Off',
            DA: plainString('/ZaDb 0 Tf 0 g'),
            MK: { CA: plainString('4') },
            AP: this.#tick,
          }
        : {
            FT: 'Tx',
            Ff: kind === 'lines' ? MULTILINE : 0,
            DA: plainString(TYPED),
            AP: { N: this.#emptyAppearance(width, height) },
          };
    return this.#add(name, { ...widget, ...own });
  }

  /** A field that is not seen and not changed: which checklist this is. */
  mark(name: string, value: string, page: PDFRef): PDFRef {
    return this.#add(name, {
      Type: 'Annot',
      Subtype: 'Widget',
      Rect: [0, 0, 0, 0],
      P: page,
      F: HIDDEN,
      FT: 'Tx',
      Ff: READ_ONLY,
      DA: plainString(TYPED),
      V: textString(value),
      TU: textString(name),
    });
  }

  /** Whether no field was made at all. */
  get isEmpty(): boolean {
    return this.#root.kids.size() === 0;
  }

  /** The form as the catalogue names it. */
  finish(): PDFRef {
    return this.#context.register(
      this.#context.obj({
        Fields: this.#root.kids,
        DR: { Font: this.#fonts },
        DA: plainString(TYPED),
      }),
    );
  }

  #add(name: string, entries: object): PDFRef {
    const sections = name.split('.');
    const leaf = sections.pop() ?? '';
    const branch = sections.reduce((at, section) => this.#branch(at, section), this.#root);
    const field = this.#context.obj({ ...entries, T: textString(leaf) } as never) as unknown as PDFDict;
    if (branch.ref !== undefined) field.set(nameOf('Parent'), branch.ref);
    const ref = this.#context.register(field);
    branch.kids.push(ref);
    return ref;
  }

  #branch(above: Branch, section: string): Branch {
    const known = above.branches.get(section);
    if (known !== undefined) return known;
    const kids = this.#context.obj([]);
    const node = this.#context.obj({ T: textString(section), Kids: kids }) as PDFDict;
    if (above.ref !== undefined) node.set(nameOf('Parent'), above.ref);
    const made: Branch = { ref: this.#context.register(node), kids, branches: new Map() };
    above.kids.push(made.ref as PDFRef);
    above.branches.set(section, made);
    return made;
  }

  /** What an empty text field looks like; fields of one size share it. */
  #emptyAppearance(width: number, height: number): PDFRef {
    const key = `${width.toFixed(2)} ${height.toFixed(2)}`;
    const known = this.#empty.get(key);
    if (known !== undefined) return known;
    const box = [0, 0, Number(width.toFixed(2)), Number(height.toFixed(2))];
    const made = this.#shape('/Tx BMC EMC', box);
    this.#empty.set(key, made);
    return made;
  }

  #tickAppearance(): PDFDict {
    const box = [0, 0, 15, 15];
    const mark = this.#shape('q 1.6 w 3 7.5 m 6.2 3.6 l 12 11.8 l S Q', box);
    return this.#context.obj({ N: { Yes: mark, Off: this.#shape('', box) } }) as PDFDict;
  }

  #shape(operators: string, box: readonly number[]): PDFRef {
    const entries = { Type: 'XObject', Subtype: 'Form', BBox: [...box], Resources: { Font: this.#fonts } };
    return this.#context.register(this.#context.stream(operators, entries as never));
  }
}

/** An inner node of the tree: part of a name, with what stands below it. */
interface Branch {
  readonly ref?: PDFRef;
  readonly kids: PDFArray;
  readonly branches: Map<string, Branch>;
}

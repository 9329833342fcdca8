import type { PDFContext, PDFDict, PDFRef } from '@cantoo/pdf-lib';
import type { Tag } from './canvas.ts';
import { nameOf } from './objects.ts';

/** Collects what is read aloud, in order, as one flat list: headings, paragraphs and fields. */
export class StructureBuilder {
  readonly #context: PDFContext;
  readonly #root: PDFRef;
  readonly #document: PDFRef;
  readonly #elements: PDFRef[] = [];
  /** To what the marks of a page, or a field, belong, by the number that the page or the field carries. */
  readonly #owners: PDFRef[] = [];

  constructor(context: PDFContext) {
    this.#context = context;
    this.#root = context.nextRef();
    this.#document = context.nextRef();
  }

  /** A marked text; the page names all of its own to {@link page}. */
  text(tag: Tag, page: PDFRef, mark: number): PDFRef {
    return this.#element(tag, page, mark);
  }

  /** A field, made with the number that leads from it back to here. */
  field(page: PDFRef, make: (number: number) => PDFRef): PDFRef {
    const number = this.#owners.length;
    // The place is taken before the field is made, which names it.
    this.#owners.push(this.#root);
    const annotation = make(number);
    this.#owners[number] = this.#element('Form', page, { Type: 'OBJR', Obj: annotation });
    return annotation;
  }

  /** The number of a page whose texts are given by their marks. */
  page(texts: readonly PDFRef[]): number {
    return this.#owners.push(this.#context.register(this.#context.obj([...texts]))) - 1;
  }

  finish(): PDFRef {
    const context = this.#context;
    const numbers = this.#owners.flatMap((owner, number) => [number, owner]);
    const document = { Type: 'StructElem', S: 'Document', P: this.#root, K: [...this.#elements] };
    context.assign(this.#document, context.obj(document));
    const root = {
      Type: 'StructTreeRoot',
      K: [this.#document],
      ParentTree: context.register(context.obj({ Nums: numbers })),
      ParentTreeNextKey: this.#owners.length,
    };
    context.assign(this.#root, context.obj(root));
    return this.#root;
  }

  #element(tag: Tag, page: PDFRef, content: number | { readonly Type: 'OBJR'; readonly Obj: PDFRef }): PDFRef {
    const entries = { Type: 'StructElem', S: tag, P: this.#document, Pg: page, K: content };
    const ref = this.#context.register(this.#context.obj(entries));
    this.#elements.push(ref);
    return ref;
  }
}

/** What the catalogue says of a tagged document. */
export function markTagged(catalogue: PDFDict, context: PDFContext, root: PDFRef): void {
  catalogue.set(nameOf('StructTreeRoot'), root);
  catalogue.set(nameOf('MarkInfo'), context.obj({ Marked: true }));
  catalogue.set(nameOf('ViewerPreferences'), context.obj({ DisplayDocTitle: true }));
}

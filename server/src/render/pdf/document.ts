import { type PDFContext, PDFDocument, type PDFRef } from '@cantoo/pdf-lib';
import { visible } from '../escape.ts';
import type { Canvas, Faces } from './canvas.ts';
import type { Sheet } from './flow.ts';
import { FormBuilder } from './form.ts';
import { embedFace, nameOf } from './objects.ts';
import type { Picture } from './qr.ts';
import { markTagged, StructureBuilder } from './structure.ts';

/** What a document says of itself. */
export interface About {
  readonly title: string;
  readonly subject: string;
  /** Fields that are not seen and not changed, by which a form is known when it comes back. */
  readonly marks?: readonly (readonly [name: string, value: string])[];
}

export interface Drawn {
  readonly about: About;
  readonly canvases: readonly Canvas[];
  readonly sheet: Sheet;
  readonly faces: Faces;
  /** The picture that all pages share. */
  readonly code: Picture | undefined;
}

/** Drawn pages as the bytes of a document. It carries no dates and no chance: equal pages are equal bytes. */
export async function writeDocument({ about, canvases, sheet, faces, code }: Drawn): Promise<Uint8Array> {
  const pdf = await PDFDocument.create({ updateMetadata: false });
  const { context, catalog } = pdf;
  const resources = context.register(
    context.obj({
      Font: { F1: embedFace(context, faces.regular), F2: embedFace(context, faces.bold) },
      XObject: code === undefined ? {} : { Code: pictureObject(context, code) },
    }),
  );
  const form = new FormBuilder(context);
  const structure = new StructureBuilder(context);
  canvases.forEach((canvas, index) => {
    const { node, ref } = pdf.addPage([sheet.width, sheet.height]);
    const { annotations, number } = placeItems(canvas, ref, form, structure);
    const marks = index === 0 ? (about.marks ?? []).map(([name, value]) => form.mark(name, value, ref)) : [];
    node.set(nameOf('Resources'), resources);
    node.set(nameOf('Contents'), context.register(context.flateStream(canvas.operators.join('\n'))));
    node.set(nameOf('Annots'), context.obj([...annotations, ...marks]));
    node.set(nameOf('StructParents'), context.obj(number));
    node.set(nameOf('Tabs'), nameOf('S'));
  });
  describe(pdf, about);
  if (!form.isEmpty) catalog.set(nameOf('AcroForm'), form.finish());
  markTagged(catalog, context, structure.finish());
  return pdf.save({ addDefaultPage: false, updateFieldAppearances: false, objectsPerTick: Number.POSITIVE_INFINITY });
}

function pictureObject(context: PDFContext, { operators, size }: Picture): PDFRef {
  return context.register(
    context.flateStream(operators, { Type: 'XObject', Subtype: 'Form', BBox: [0, 0, size, size] }),
  );
}

/** Texts and fields of a page, in the order in which they are read. */
function placeItems(
  { items }: Canvas,
  page: PDFRef,
  form: FormBuilder,
  structure: StructureBuilder,
): { readonly annotations: readonly PDFRef[]; readonly number: number } {
  const annotations: PDFRef[] = [];
  const texts: PDFRef[] = [];
  for (const item of items) {
    if ('field' in item) {
      annotations.push(structure.field(page, (number) => form.place(item.field, page, number)));
    } else texts.push(structure.text(item.tag, page, item.mark));
  }
  return { annotations, number: structure.page(texts) };
}

function describe(pdf: PDFDocument, { title, subject }: About): void {
  pdf.setTitle(visible(title));
  pdf.setSubject(subject);
  pdf.setCreator('Setproof');
  pdf.setProducer('Setproof');
  pdf.setLanguage('en');
}

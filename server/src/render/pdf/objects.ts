import {
  decodeFromBase64,
  type PDFContext,
  type PDFDict,
  PDFHexString,
  PDFName,
  PDFRawStream,
  type PDFRef,
  PDFString,
} from '@cantoo/pdf-lib';
import type { Face } from './face.ts';

/** A text of any script as PDF has it; in Latin letters it is a quarter as long. */
export function textString(text: string): PDFHexString | PDFString {
  if (/[^ -~]/.test(text)) return PDFHexString.fromText(text);
  return PDFString.of(text.replace(/[\\()]/g, '\\$&'));
}

/** A short text of ours in Latin letters. */
export function plainString(text: string): PDFString {
  return PDFString.of(text);
}

/** The whole font as an object of the document; its text is written by glyphs and read back through a table. */
export function embedFace(context: PDFContext, { data }: Face): PDFRef {
  const file = rawStream(context, decodeFromBase64(data.deflated), { Length1: data.length, Filter: 'FlateDecode' });
  const descriptor = context.register(
    context.obj({
      Type: 'FontDescriptor',
      FontName: data.name,
      // Symbolic: the font is addressed by its own glyphs.
      Flags: 4,
      FontBBox: [...data.box],
      ItalicAngle: 0,
      Ascent: data.ascent,
      Descent: data.descent,
      CapHeight: data.capHeight,
      StemV: 80,
      FontFile2: file,
    }),
  );
  const descendant = context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'CIDFontType2',
      BaseFont: data.name,
      CIDSystemInfo: { Registry: plainString('Adobe'), Ordering: plainString('Identity'), Supplement: 0 },
      FontDescriptor: descriptor,
      CIDToGIDMap: 'Identity',
      W: [0, [...data.widths]],
    }),
  );
  return context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'Type0',
      BaseFont: data.name,
      Encoding: 'Identity-H',
      DescendantFonts: [descendant],
      ToUnicode: rawStream(context, decodeFromBase64(data.toUnicode), { Filter: 'FlateDecode' }),
    }),
  );
}

function rawStream(context: PDFContext, bytes: Uint8Array, entries: Readonly<Record<string, string | number>>): PDFRef {
  const dictionary = context.obj({ ...entries, Length: bytes.length }) as PDFDict;
  return context.register(PDFRawStream.of(dictionary, bytes));
}

export function nameOf(text: string): PDFName {
  return PDFName.of(text);
}

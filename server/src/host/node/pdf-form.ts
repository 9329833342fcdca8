import type { PDFField } from '@cantoo/pdf-lib';
import type { FormFields } from '../../engine/index.ts';

/** The fields of a form, or why there are none, in a sentence. */
export type PdfForm = { readonly fields: FormFields } | { readonly refused: string };

/** What a reader looks for at the beginning and at the end (ISO 32000-1, 7.5.2, 7.5.5, and annex H.3 for the slack). */
const SLACK = 1024;
const BEGINNING = '%PDF-';
const END = '%%EOF';

export function isPdf(bytes: Uint8Array): boolean {
  return latin(bytes.subarray(0, SLACK)).includes(BEGINNING);
}

function latin(bytes: Uint8Array): string {
  return String.fromCharCode(...bytes);
}

/** Reads the fields of a filled PDF form: texts and choices as they were entered, a tick as `yes`. Never throws. */
export async function readPdfForm(bytes: Uint8Array): Promise<PdfForm> {
  // The library mends what was cut off, and would lose entries without a word.
  if (!latin(bytes.subarray(-SLACK)).includes(END))
    return { refused: 'The PDF has no end: it was cut off on its way. Send it again.' };
  try {
    const { PDFDocument } = await import('@cantoo/pdf-lib');
    const options = { updateMetadata: false, throwOnInvalidObject: true, warnOnInvalidObjects: false };
    const fields = (await PDFDocument.load(bytes, options)).getForm().getFields();
    return { fields: new Map(await Promise.all(fields.map(entryOf))) };
  } catch (error) {
    return { refused: refusal(error, bytes) };
  }
}

async function entryOf(field: PDFField): Promise<readonly [string, string]> {
  const { PDFCheckBox, PDFDropdown, PDFOptionList, PDFRadioGroup, PDFTextField } = await import('@cantoo/pdf-lib');
  const name = field.getName();
  if (field instanceof PDFTextField) return [name, field.getText() ?? ''];
  if (field instanceof PDFCheckBox) return [name, field.isChecked() ? 'yes' : ''];
  if (field instanceof PDFRadioGroup) return [name, field.getSelected() ?? ''];
  if (field instanceof PDFDropdown || field instanceof PDFOptionList) return [name, field.getSelected().join(', ')];
  return [name, ''];
}

function refusal(error: unknown, bytes: Uint8Array): string {
  const reason = error instanceof Error ? error.message : String(error);
  // What is encrypted may fail to be read before it is told to be so.
  if (/encrypt/i.test(reason) || Buffer.from(bytes).includes('/Encrypt'))
    return 'The PDF is encrypted. Save it without a password, and bring that one back.';
  return `The PDF is damaged and cannot be read whole (${reason.split('\n')[0]?.slice(0, 120)}). Save it again in the viewer, or send it again.`;
}

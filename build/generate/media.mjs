import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeFieldPage } from './field-page.mjs';
import { writeFonts } from './font.mjs';

/** Writes what the two fillable checklists carry: the fonts of the form, script and style of the field page. */
export async function generateMedia(root) {
  const [fonts, page] = await Promise.all([writeFonts(), writeFieldPage(root)]);
  write(join(root, 'server/src/render/pdf/generated'), 'fonts.ts', fonts);
  write(join(root, 'server/src/render/checklist/field/generated'), 'page.ts', page);
}

function write(folder, name, text) {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, name), text);
}

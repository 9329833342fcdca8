import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';

const LIBRARY = dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json'));
/** An address that no network has; what is asked of it is answered here. */
const ADDRESS = 'https://viewer.invalid';

/** The form layer of a viewer: real inputs over every page, what is typed in them kept for saving. */
const VIEWER = `<!doctype html><meta charset="utf-8"><title>viewer</title><body><script type="module">
import '${ADDRESS}/build/pdf.worker.min.mjs';
import { AnnotationLayer, getDocument } from '${ADDRESS}/build/pdf.min.mjs';
const pdf = await getDocument({ url: '${ADDRESS}/form.pdf', useSystemFonts: true }).promise;
for (let number = 1; number <= pdf.numPages; number++) {
  const page = await pdf.getPage(number);
  const viewport = page.getViewport({ scale: 1 });
  const div = document.body.appendChild(document.createElement('div'));
  const layer = new AnnotationLayer({ div, page, viewport, annotationStorage: pdf.annotationStorage });
  await layer.render({ annotations: await page.getAnnotations(), viewport, div, page, renderForms: true });
}
globalThis.savedForm = async () => btoa(Array.from(await pdf.saveDocument(), (byte) => String.fromCharCode(byte)).join(''));
document.title = 'ready';
</script>`;

/** Opens a PDF form to be filled in, without a network. */
export async function openForm(context: BrowserContext, form: Uint8Array): Promise<Page> {
  const page = await context.newPage();
  await page.route(`${ADDRESS}/**`, (route) => {
    const { pathname } = new URL(route.request().url());
    if (pathname === '/') return route.fulfill({ contentType: 'text/html', body: VIEWER });
    if (pathname === '/form.pdf') return route.fulfill({ contentType: 'application/pdf', body: Buffer.from(form) });
    return route.fulfill({ contentType: 'text/javascript', body: readFileSync(join(LIBRARY, pathname)) });
  });
  await page.goto(`${ADDRESS}/`);
  await page.waitForFunction("document.title === 'ready'");
  return page;
}

/** The form as the viewer saves it. */
export async function savedForm(viewer: Page): Promise<Uint8Array> {
  return Buffer.from((await viewer.evaluate('savedForm()')) as string, 'base64');
}

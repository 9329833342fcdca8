import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Programs that look at a PDF from outside and are not here. */
export const MISSING_PDF_TOOLS = ['qpdf', 'pdftotext', 'pdfinfo'].filter((tool) => {
  try {
    execFileSync(tool, [tool === 'qpdf' ? '--version' : '-v'], { stdio: 'ignore' });
    return false;
  } catch {
    return true;
  }
});

/** Says why a PDF is not looked at; on a build server that is a failure. */
export function skipsWithoutPdfTools(what: string): boolean {
  if (MISSING_PDF_TOOLS.length === 0) return false;
  console.warn(`${what} is not looked at from outside: ${MISSING_PDF_TOOLS.join(', ')} not found.`);
  return process.env.CI !== 'true';
}

/** Looks at a PDF from outside: sound or not (then it throws), what it says of itself, and the text of each page. */
export function lookAtPdf(bytes: Uint8Array): { readonly info: string; readonly sheets: readonly string[] } {
  const folder = mkdtempSync(join(tmpdir(), 'setproof-pdf-'));
  try {
    const path = join(folder, 'a.pdf');
    writeFileSync(path, bytes);
    execFileSync('qpdf', ['--check', '--warning-exit-0', path], { stdio: 'pipe' });
    const info = execFileSync('pdfinfo', [path], { encoding: 'utf8' });
    const text = execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
    return { info, sheets: text.split('\f').slice(0, -1) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

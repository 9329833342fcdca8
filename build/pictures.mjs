// Makes the pictures of README and guide from the real program, on the invented wells of samples/: `npm run pictures`.
// Needs what the tests in a real VS Code need; `--drawings` makes only those that need no browser, `--into FOLDER` puts
// them somewhere else than docs/pictures.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { drawings } from './pictures/drawings.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const options = { drawings: { type: 'boolean' }, into: { type: 'string', default: join(ROOT, 'docs/pictures') } };
const { values: told } = parseArgs({ options });

const scratch = mkdtempSync(join(tmpdir(), 'setproof-pictures-'));
try {
  mkdirSync(told.into, { recursive: true });
  drawings(ROOT, scratch).forEach(keep);
  if (!told.drawings) {
    const { photographs } = await import('./pictures/photographs.mjs');
    (await photographs(ROOT, scratch)).forEach(keep);
  }
} finally {
  rmSync(scratch, { recursive: true, force: true, maxRetries: 5 });
}

function keep({ name, content }) {
  writeFileSync(join(told.into, name), content);
  console.log(`${name} (${Math.ceil(content.length / 1024)} KiB)`);
}

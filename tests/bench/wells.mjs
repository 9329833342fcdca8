// Writes a repository of many invented wells for the bench: `node tests/bench/wells.mjs FOLDER COUNT`.
import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const SAMPLES = join(dirname(fileURLToPath(import.meta.url)), '../../samples');
const SHEETS = 50;
const WELLS_A_PAD = 20;
const PADS_A_FIELD = 25;

/**
 * Wells that differ as real ones do: name, pad, serial numbers, depths by a few metres, some delays. They share fifty
 * data sheets. The same count gives the same files.
 */
export function writeWells(folder, count) {
  const equipment = join(folder, 'equipment');
  cpSync(join(SAMPLES, 'equipment'), equipment, { recursive: true });
  const spare = addSheets(equipment, SHEETS - sheetsIn(equipment).length);
  const originals = ['pad-a', 'pad-b'].flatMap((pad) =>
    readdirSync(join(SAMPLES, pad)).map((name) => readFileSync(join(SAMPLES, pad, name), 'utf8')),
  );
  mkdirSync(join(folder, '.git'), { recursive: true });
  for (let index = 0; index < count; index++) {
    const pad = Math.floor(index / WELLS_A_PAD);
    const name = `pad-${String(pad).padStart(4, '0')}`;
    if (index % WELLS_A_PAD === 0) mkdirSync(join(folder, name));
    const text = wellText(originals[index % originals.length], index, pad, spare);
    writeFileSync(join(folder, name, `well-${String(index).padStart(5, '0')}.yaml`), text);
  }
}

/** Data sheets under further names, by the sheet that each is a copy of. */
function addSheets(equipment, count) {
  const spare = new Map();
  for (const path of sheetsIn(equipment).slice(0, count)) {
    const copy = path.replace('.yaml', '-b.yaml');
    writeFileSync(copy, readFileSync(path, 'utf8'));
    spare.set(basename(path), basename(copy));
  }
  return spare;
}

function sheetsIn(equipment) {
  const names = readdirSync(equipment, { recursive: true, encoding: 'utf8' });
  return names
    .filter((name) => name.endsWith('.yaml'))
    .sort()
    .map((name) => join(equipment, name));
}

function wellText(original, index, pad, spare) {
  const shift = (number, by) => String(Number(number) + by);
  return original
    .replace(/^( {2}field:).*/m, `$1 Benchmoor ${Math.floor(pad / PADS_A_FIELD)}`)
    .replace(/^( {2}pad:).*/m, `$1 P${pad}`)
    .replace(/^( {2}well:).*/m, `$1 BM-${index}`)
    .replace(/serial: ([A-Z]+)-\d+/g, (_, letters) => `serial: ${letters}-${100000 + index}`)
    .replace(/(main:.*length: )(\d+)/, (_, before, length) => before + shift(length, index % 7))
    .replace(/(perforations: \{ md: )(\d+)/, (_, before, md) => before + shift(md, index % 11))
    .replace(/(underload:.*delay: )(\d+)/, (_, before, delay) => before + shift(delay, index % 13))
    .replace(/(restart: .*delay: )\d+ h/, (_, before) => `${before}${120 + 3 * (index % WELLS_A_PAD)} min`)
    .replace(/[\w-]+\.yaml/g, (name) => (index % 2 === 1 && spare.get(name)) || name);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeWells(process.argv[2], Number(process.argv[3]));

// Cold starts of the command line next to the least that Node takes, and what the extension weighs.
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { node, takingTurns } from './measure.mjs';

const TURNS = 25;
const FEW_TURNS = 9;

export function coldRows({ root, well, scratch }) {
  const samples = join(root, 'samples');
  const cli = (...args) => node([join(root, 'dist/cli.js'), ...args], samples);
  const out = join(scratch, 'out');
  const starts = takingTurns(
    { node: () => node(['-e', '0'], samples), check: () => cli('check', well), help: () => cli('--help') },
    TURNS,
  );
  const sheets = takingTurns(
    {
      node: () => node(['-e', '0'], samples),
      html: () => cli('checklist', well, '--output', out),
      pdf: () => cli('checklist', well, '--format', 'pdf', '--output', out),
    },
    FEW_TURNS,
  );
  rmSync(out, { force: true });
  return [
    { id: 'check', work: '`setproof check FILE`, cold', ...besideNode(starts, 'check'), goal: { ratio: 1.5 } },
    { id: 'help', work: '`setproof --help`, cold', ...besideNode(starts, 'help') },
    { id: 'html', work: '`setproof checklist FILE`, cold', ...besideNode(sheets, 'html'), goal: { ms: 150 } },
    { id: 'pdf', work: 'the same as a PDF form', ...besideNode(sheets, 'pdf'), goal: { ms: 600 } },
  ];
}

function besideNode(medians, name) {
  return { ms: medians[name], beside: { name: '`node -e 0`', ms: medians.node } };
}

/** What is packed as the extension, each file compressed as an archive does it. */
export function extensionRow(root) {
  const patterns = readFileSync(join(root, '.vscodeignore'), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('!'));
  const wanted = patterns.map((line) => new RegExp(`^${asExpression(line.slice(1))}$`));
  const names = readdirSync(root, { recursive: true, encoding: 'utf8' }).map((name) => name.replaceAll('\\', '/'));
  const packed = names.filter((name) => !name.startsWith('node_modules/') && wanted.some((each) => each.test(name)));
  const bytes = packed.reduce((sum, name) => sum + packedSize(join(root, name)), 0);
  return { id: 'extension', work: 'the extension, packed', megabytes: bytes / 2 ** 20, goal: { megabytes: 2 } };
}

function asExpression(pattern) {
  return pattern
    .replace(/[.+^${}()|[\]\\]/g, '\\$&')
    .replaceAll('**', '\0')
    .replaceAll('*', '[^/]*')
    .replaceAll('\0', '.*');
}

function packedSize(path) {
  try {
    return deflateRawSync(readFileSync(path)).length;
  } catch (error) {
    if (error.code === 'EISDIR') return 0;
    throw error;
  }
}

// Shows what Setproof does, on the invented wells of samples/: `npm run demo`. Leaves what it made in out/.
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const HOME = join(dirname(fileURLToPath(import.meta.url)), '..');
const WELLS = [
  { name: 'linear', file: 'samples/pad-a/qm-a1.yaml' },
  { name: 'rotary', file: 'samples/pad-a/qm-a3.yaml' },
];

mkdirSync(join(HOME, 'out'), { recursive: true });
console.log('Setproof, on the invented wells of samples/. What was made:\n');

make('out/findings.txt', 'every sample checked', ['check', 'samples']);
make('out/findings.json', 'the same, for machines', ['check', 'samples', '--format', 'json']);
make('out/with-mistakes.txt', 'two wells full of planted mistakes, and what is found', [
  'check',
  'samples/with-mistakes',
]);
for (const { name, file } of WELLS) {
  make(`out/worksheet-${name}.txt`, `the worked values of a ${name} well`, ['worksheet', file]);
  make(`out/worksheet-${name}.html`, 'the same with pictures, to print', ['worksheet', file, '--format', 'html']);
  make(`out/checklist-${name}.html`, 'its checklist, to print', ['checklist', file]);
  make(`out/checklist-${name}.md`, 'its checklist, as Markdown', ['checklist', file, '--format', 'markdown']);
}
console.log('\nTry it yourself:  node dist/cli.js check samples/with-mistakes/qm-x1.yaml');

/** Runs the command line and keeps what it prints. A check that finds something ends with 1, which is what it is for. */
function make(output, what, args) {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['dist/cli.js', ...args], {
    cwd: HOME,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  if (status !== 0 && status !== 1) {
    console.error(`setproof ${args.join(' ')} ended with ${status}:\n${stderr}`);
    process.exitCode = 1;
    return;
  }
  writeFileSync(join(HOME, output), stdout);
  console.log(`  ${output.padEnd(28)} ${what}`);
}

// Builds the command line before the tests if its sources are newer: they run what is shipped.
import { execFileSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const ROOT = join(import.meta.dirname, '..');

export default function setup(): void {
  const built = timeOf(join(ROOT, 'dist/cli.js'));
  const sources = ['server/src', 'build'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((name) => join(ROOT, folder, name)),
  );
  if (sources.every((path) => timeOf(path) <= built)) return;
  execFileSync(process.execPath, [join(ROOT, 'build/bundle.mjs'), 'cli'], { stdio: 'inherit' });
}

function timeOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}

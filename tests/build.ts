// Builds what is shipped before the tests if the sources are newer: the tests run that.
import { execFileSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const ROOT = join(import.meta.dirname, '..');

export default function setup(): void {
  const built = timeOf(join(ROOT, 'dist/cli.js'));
  const sources = ['server/src', 'client/src', 'build'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((name) => join(ROOT, folder, name)),
  );
  if (sources.every((path) => timeOf(path) <= built)) return;
  execFileSync(process.execPath, [join(ROOT, 'build/bundle.mjs')], { stdio: 'inherit' });
}

function timeOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}

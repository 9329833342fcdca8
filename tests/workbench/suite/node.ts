import { readdirSync, readFileSync } from 'node:fs';
import './common.ts';
import { eventually, isTrue, runAll, test } from './runner.ts';
import { finding, noFinding, show, takeGoodTap, takeLowTap, WELL } from './site.ts';

test('a server that was killed comes back', async () => {
  const document = await show(WELL);
  const before = serverProcesses();
  isTrue(before.length > 0, 'no server runs');
  for (const id of before) process.kill(id, 'SIGKILL');
  await eventually('another server', () => serverProcesses().some((id) => !before.includes(id)) || undefined);
  await takeLowTap(document);
  await finding(WELL, 'tap.below-window');
  await takeGoodTap(document);
  await noFinding(WELL, 'tap.below-window');
});

/** Servers that this very extension host has started. */
function serverProcesses(): readonly number[] {
  const all = readdirSync('/proc').filter((name) => /^\d+$/.test(name));
  return all
    .filter((id) => textOf(`/proc/${id}/stat`).split(') ')[1]?.split(' ')[1] === String(process.pid))
    .filter((id) => textOf(`/proc/${id}/cmdline`).includes('language-server.js'))
    .map(Number);
}

function textOf(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}

export const run = runAll;

// A real VS Code in a real browser, with the extension in both of its hosts: `node tests/workbench/run.mjs`.
// Needs Chromium (CHROMIUM=path, else /usr/bin/chromium); installs its own hosts once. `--only node,untrusted,web` runs
// some of it, `--pictures FOLDER` takes pictures of each host instead.
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const HERE = dirname(fileURLToPath(import.meta.url));
const ROOT = join(HERE, '../..');

if (!existsSync(join(HERE, 'node_modules/.package-lock.json'))) {
  console.log('Installing the hosts for the tests in a real VS Code …');
  execFileSync('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund'], { cwd: HERE, stdio: 'inherit' });
}

const { findChromium } = await import('./browser.mjs');
const { HOSTS, runDesktop } = await import('./hosts.mjs');
const { runDay, runSuite, takePictures } = await import('./session.mjs');
const { bundleSuites } = await import('./bundle-suites.mjs');

const chromium = findChromium();
const only = argument('--only')?.split(',') ?? Object.keys(HOSTS);
const pictures = argument('--pictures');

let passed = 0;
let failed = 0;
if (chromium === undefined) {
  console.log('No Chromium was found (CHROMIUM, /usr/bin/chromium), so nothing could be run.');
  failed = 1;
} else if (!existsSync(join(ROOT, 'dist/extension.cjs'))) {
  console.log("The extension is not built: run 'npm run build' first.");
  failed = 1;
} else {
  const suites = await bundleSuites();
  for (const name of only) await runOne({ name, ...HOSTS[name] }, suites);
  await runOnDesktop(suites);
}
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);

async function runOne(host, suites) {
  console.log(`${host.title}:`);
  try {
    if (pictures !== undefined) {
      await takePictures(host, chromium, join(pictures, host.name));
      if (host.day) count(await runDay(host, chromium, join(pictures, host.name)));
      return;
    }
    if (host.suite && process.env.DAY === undefined) count(await runSuite(host, suites[host.suite], chromium));
    if (host.day) count(await runDay(host, chromium));
  } catch (error) {
    console.log(`  ✗ ${error instanceof Error ? error.message : error}`);
    failed++;
  }
}

function count(counts) {
  passed += counts.passed;
  failed += counts.failed;
}

async function runOnDesktop(suites) {
  const path = process.env.SETPROOF_VSCODE;
  if (path === undefined) {
    console.log('A desktop VS Code: not run; set SETPROOF_VSCODE to the path of one to run the same suite in it.');
    return;
  }
  const isPassed = await runDesktop(path, suites.node);
  if (isPassed) passed++;
  else failed++;
}

function argument(name) {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
}

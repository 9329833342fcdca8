// `node tests/bench/language.mjs [WELL]`: the language server over standard input and output, next to the least that the
// library can do and to a general server for YAML, in one run. Medians and ratios, no verdicts.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const HERE = dirname(fileURLToPath(import.meta.url));
const ROOT = join(HERE, '../..');
const PAD = join(ROOT, 'samples/pad-a');
const WELL =
  process.argv[2] ??
  join(
    PAD,
    readdirSync(PAD).find((name) => name.endsWith('.yaml')),
  );
const PEER = join(HERE, 'node_modules/yaml-language-server/bin/yaml-language-server');
const KEYS = 200;
const STARTS = 9;
const OPENS = 100;

if (!existsSync(PEER)) {
  console.log('Installing a general server for YAML to measure against …');
  execFileSync('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund'], { cwd: HERE, stdio: 'inherit' });
}
const scratch = mkdtempSync(join(tmpdir(), 'setproof-bench-'));
try {
  const { LspClient, StdioTransport } = await bundled('tests/language/client.ts');
  const echo = await bundleEcho();
  const servers = [
    { name: 'setproof', program: join(ROOT, 'dist/language-server.js'), keys: KEYS },
    { name: 'echo of the library', program: echo, keys: KEYS },
    // It waits before it looks; fewer keys show that as well.
    { name: 'yaml-language-server', program: PEER, keys: 20 },
  ].map((each) => ({ ...each, connect: () => new LspClient(new StdioTransport(['--stdio'], each.program)) }));
  const results = [];
  for (const server of servers) results.push({ name: server.name, ...(await measure(server)) });
  report(results, median(times(STARTS, () => timed(() => execFileSync(process.execPath, ['-e', '0'])))));
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

async function measure({ connect, keys }) {
  const starts = [];
  for (let turn = 0; turn < STARTS; turn++) {
    const from = performance.now();
    const client = connect();
    await initialize(client);
    starts.push(performance.now() - from);
    client.transport.stop();
  }
  const client = connect();
  await initialize(client);
  const text = readFileSync(WELL, 'utf8');
  const uri = pathToFileURL(WELL).href;
  const open = await answered(client, uri, () => client.open(uri, text));
  const strokes = await typeKeys(client, uri, text, keys);
  const burst = await openMany(client, text);
  const memory = residentMegabytes(client.transport.process.pid);
  client.transport.stop();
  const typed = strokes.slice(keys / 4);
  return { start: median(starts), open, key: median(typed), keyP95: percentile(typed, 0.95), burst, memory };
}

function initialize(client) {
  return client.initialize({ workspaceFolders: [{ uri: pathToFileURL(PAD).href, name: 'pad' }] });
}

/** Types and deletes a digit in the first number of the water cut, or of whatever stands at the end. */
async function typeKeys(client, uri, text, keys) {
  const line = text.split('\n').findIndex((each) => each.includes('water_cut:'));
  const character = text.split('\n')[line].indexOf('water_cut:') + 'water_cut: '.length;
  const strokes = [];
  for (let key = 0; key < keys; key++) {
    const start = { line, character };
    const end = { line, character: character + (key % 2) };
    const change = { range: { start, end }, text: key % 2 === 0 ? '1' : '' };
    strokes.push(await answered(client, uri, () => client.change(uri, key + 2, [change])));
  }
  return strokes;
}

async function openMany(client, text) {
  const uris = times(OPENS, (at) => pathToFileURL(join(PAD, `open-${at}.yaml`)).href);
  const from = performance.now();
  for (const uri of uris) client.open(uri, text);
  await Promise.all(uris.map((uri) => client.publication(uri)));
  return performance.now() - from;
}

async function answered(client, uri, tell) {
  client.publications.length = 0;
  const from = performance.now();
  tell();
  await client.publication(uri);
  return performance.now() - from;
}

function report(results, node) {
  const column = (text) => text.padStart(12);
  const head = ['start', '× node -e 0', 'first open', 'key, median', 'key, p95', `${OPENS} opens`, 'memory'];
  console.log(`\nlanguage servers over standard input and output, in ms and MB; node -e 0 takes ${node.toFixed(0)} ms`);
  console.log(' '.repeat(24) + head.map(column).join(''));
  for (const { name, start, open, key, keyP95, burst, memory } of results) {
    const cells = [start, start / node, open, key, keyP95, burst, memory].map((each) => column(each.toFixed(2)));
    console.log(`  ${name.padEnd(22)}${cells.join('')}`);
  }
}

async function bundled(entry) {
  const outfile = join(scratch, 'client.mjs');
  const here = JSON.stringify(pathToFileURL(join(ROOT, entry)).href);
  const define = { 'import.meta.url': here };
  await build({
    absWorkingDir: ROOT,
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    define,
  });
  return import(outfile);
}

async function bundleEcho() {
  const outfile = join(scratch, 'echo.cjs');
  const entryPoints = ['tests/bench/echo-server.ts'];
  await build({
    absWorkingDir: ROOT,
    entryPoints,
    outfile,
    bundle: true,
    minify: true,
    platform: 'node',
    format: 'cjs',
  });
  return outfile;
}

function residentMegabytes(id) {
  const file = `/proc/${id}/status`;
  if (!existsSync(file)) return Number.NaN;
  return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(file, 'utf8'))[1]) / 1024;
}

function times(count, make) {
  return Array.from({ length: count }, (_, at) => make(at));
}

function timed(run) {
  const from = performance.now();
  run();
  return performance.now() - from;
}

function median(numbers) {
  return percentile(numbers, 0.5);
}

function percentile(numbers, share) {
  return [...numbers].sort((a, b) => a - b)[Math.min(numbers.length - 1, Math.floor(numbers.length * share))];
}

// The language server over standard input and output, next to the least that the library can do and, where it is
// installed (`npm ci` in this folder), a general server for YAML.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { median, node, percentile, timed, times } from './measure.mjs';

const PEER = join(import.meta.dirname, 'node_modules/yaml-language-server/bin/yaml-language-server');
const KEYS = 200;
const STARTS = 15;
const OPENS = 100;
const ASKED = 100;

export async function languageRows({ root, well, scratch }) {
  const { LspClient, StdioTransport } = await bundledClient(root, scratch);
  const servers = [
    { name: 'setproof', program: join(root, 'dist/language-server.js'), keys: KEYS },
    { name: 'echo of the library', program: await bundleEcho(root, scratch), keys: KEYS },
    // It waits before it looks; fewer keys show that as well.
    ...(existsSync(PEER) ? [{ name: 'yaml-language-server', program: PEER, keys: 20 }] : []),
  ].map((each) => ({ ...each, connect: () => new LspClient(new StdioTransport(['--stdio'], each.program)) }));
  const place = { well, pad: join(root, 'samples/pad-a') };
  const starts = await measureStarts(servers, place);
  const sessions = [];
  for (const server of servers) sessions.push({ name: server.name, ...(await measureSession(server, place)) });
  return rowsOf(sessions, starts);
}

function rowsOf([own, echo, ...peers], starts) {
  const row = (id, work, of, goal) => ({
    id,
    work,
    ms: of(own),
    beside: { name: echo.name, ms: of(echo) },
    also: peers.map((peer) => ({ name: peer.name, ms: of(peer) })),
    goal: { ms: goal },
  });
  return [
    {
      id: 'initialize',
      work: 'language server, start to `initialize`',
      ms: starts.setproof,
      beside: { name: '`node -e 0`', ms: starts.node },
      also: [echo, ...peers].map(({ name }) => ({ name, ms: starts[name] })),
      goal: { ratio: 1.6 },
    },
    row('open', 'first open to diagnostics', ({ open }) => open, 15),
    row('key', 'key stroke to diagnostics, median', ({ keys }) => median(keys), 1.5),
    row('key95', 'key stroke to diagnostics, 95th percentile', ({ keys }) => percentile(keys, 0.95), 5),
    row('opens', `${OPENS} opens at once`, ({ burst }) => burst, 150),
    { id: 'memory', work: `memory after ${OPENS} opens`, megabytes: own.memory, goal: { megabytes: 85 } },
    { id: 'hover', work: 'hover, 95th percentile', ms: percentile(own.hovers, 0.95), goal: { ms: 2 } },
    { id: 'completion', work: 'completion, 95th percentile', ms: percentile(own.completions, 0.95), goal: { ms: 4 } },
  ];
}

async function measureStarts(servers, { pad }) {
  const taken = { node: [], ...Object.fromEntries(servers.map(({ name }) => [name, []])) };
  for (let turn = 0; turn < STARTS; turn++) {
    taken.node.push(timed(() => node(['-e', '0'], pad)));
    for (const { name, connect } of servers) {
      const from = performance.now();
      const client = connect();
      await initialize(client, pad);
      taken[name].push(performance.now() - from);
      client.transport.stop();
      await client.transport.exited;
    }
  }
  return Object.fromEntries(Object.entries(taken).map(([name, all]) => [name, median(all)]));
}

async function measureSession({ name, connect, keys }, { well, pad }) {
  const client = connect();
  await initialize(client, pad);
  const text = readFileSync(well, 'utf8');
  const uri = pathToFileURL(well).href;
  const open = await answered(client, uri, () => client.open(uri, text));
  const strokes = await typeKeys(client, uri, text, keys);
  const [hovers, completions] = name === 'setproof' ? await askMuch(client, uri, text) : [[], []];
  const burst = await openMany(client, pad, text);
  const memory = residentMegabytes(client.transport.process.pid);
  client.transport.stop();
  return { open, keys: strokes.slice(keys / 4), hovers, completions, burst, memory };
}

function initialize(client, pad) {
  return client.initialize({ workspaceFolders: [{ uri: pathToFileURL(pad).href, name: 'pad' }] });
}

/** Types and deletes a digit in the first water cut. */
async function typeKeys(client, uri, text, keys) {
  const { line, character } = placeOf(text, 'water_cut');
  const strokes = [];
  for (let key = 0; key < keys; key++) {
    const end = { line, character: character + (key % 2) };
    const change = { range: { start: { line, character }, end }, text: key % 2 === 0 ? '1' : '' };
    strokes.push(await answered(client, uri, () => client.change(uri, key + 2, [change])));
  }
  return strokes;
}

/** Hovers over and completes at every line in turn; warm, as after some minutes of writing. */
async function askMuch(client, uri, text) {
  const lines = text.split('\n');
  const ask = async (method) => {
    const taken = [];
    for (let turn = 0; turn < 3 * ASKED; turn++) {
      const line = turn % lines.length;
      const position = { line, character: Math.min(lines[line].length, lines[line].search(/\S|$/) + 1) };
      const from = performance.now();
      await client.request(method, { textDocument: { uri }, position });
      taken.push(performance.now() - from);
    }
    return taken.slice(-ASKED);
  };
  return [await ask('textDocument/hover'), await ask('textDocument/completion')];
}

function placeOf(text, key) {
  const lines = text.split('\n');
  const line = lines.findIndex((each) => each.includes(`${key}:`));
  return { line, character: lines[line].indexOf(`${key}:`) + key.length + 2 };
}

async function openMany(client, pad, text) {
  const uris = times(OPENS, (at) => pathToFileURL(join(pad, `open-${at}.yaml`)).href);
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

async function bundledClient(root, scratch) {
  const entry = 'tests/language/client.ts';
  const outfile = join(scratch, 'client.mjs');
  const define = { 'import.meta.url': JSON.stringify(pathToFileURL(join(root, entry)).href) };
  await build({
    absWorkingDir: root,
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    define,
  });
  return import(outfile);
}

async function bundleEcho(root, scratch) {
  const outfile = join(scratch, 'echo.cjs');
  const entryPoints = ['tests/bench/echo-server.ts'];
  await build({
    absWorkingDir: root,
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

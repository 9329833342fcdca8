// Runs what was built once on a sample, so that each program leaves its code cache beside its script.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const RUNS = { cli: runCommands, 'language-server': serveOnce };

/** Makes the caches for the Node that builds; another version makes its own when it first runs. */
export async function makeCaches(dist, programs, well) {
  await Promise.all(programs.map((name) => RUNS[name](join(dist, `${name}.js`), well)));
  for (const name of programs) {
    if (readdirSync(join(dist, 'chunks', name)).some((file) => file.endsWith('.cache'))) continue;
    console.warn(`No code cache was made for '${name}': it works, and starts more slowly.`);
  }
}

async function runCommands(program, well) {
  const commands = [['check'], ['worksheet', '--format', 'html'], ['checklist', '--format', 'pdf'], ['checklist']];
  for (const command of commands) await run(program, ...command, well);
}

async function run(program, ...args) {
  await once(spawn(process.execPath, [program, ...args], { stdio: 'ignore' }), 'exit');
}

/** A session as an editor begins it: what it compiles is what the next one needs first. */
async function serveOnce(program, well) {
  const server = spawn(process.execPath, [program, '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
  const send = (message) => {
    const body = JSON.stringify({ jsonrpc: '2.0', ...message });
    server.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  const textDocument = { uri: pathToFileURL(well).href };
  const opened = { ...textDocument, languageId: 'yaml', version: 1, text: readFileSync(well, 'utf8') };
  send({ id: 1, method: 'initialize', params: { processId: null, rootUri: null, capabilities: {} } });
  send({ method: 'initialized', params: {} });
  send({ method: 'textDocument/didOpen', params: { textDocument: opened } });
  send({ id: 'hover', method: 'textDocument/hover', params: { textDocument, position: { line: 0, character: 0 } } });
  let heard = '';
  server.stdout.on('data', (text) => {
    heard += text;
    if (!heard.includes('"id":"hover"') || !heard.includes('publishDiagnostics')) return;
    server.stdout.removeAllListeners('data').resume();
    send({ id: 2, method: 'shutdown' });
    send({ method: 'exit' });
  });
  await once(server, 'exit');
}

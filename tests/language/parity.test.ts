// The same files through the engine, the command line, the server over stdio and the server in a worker.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Change, Repository } from '../../server/src/engine/index.ts';
import { type Diagnostic, LspClient, StdioTransport, WorkerTransport } from './client.ts';
import { GOOD_TAP, LOW_TAP, makeSite, type Site, TODAY, TRANSFORMER, WELL } from './site.ts';

const CLI = fileURLToPath(new URL('../../dist/cli.js', import.meta.url));
const SEVERITIES = ['', 'error', 'warning', 'note'];

interface Said {
  readonly check: string;
  readonly severity: string;
  readonly message: string;
  readonly range: unknown;
}

function siteWithMistakes(): Site {
  const site = makeSite();
  site.write(
    WELL,
    site
      .read(WELL)
      .replace(GOOD_TAP, LOW_TAP)
      .replace('water_cut', 'watercut')
      .replace('trip: 12 bar', 'trip: 120 bar'),
  );
  return site;
}

function byEngine(site: Site, file: string): readonly Said[] {
  let repository = Repository.empty({ root: site.folder, today: TODAY }).update([readFile(site.path(file))]);
  for (let wanted = repository.wanted(); wanted.length > 0; wanted = repository.wanted()) {
    repository = repository.update(wanted.map(readFile));
  }
  const findings = repository.check(site.path(file))?.findings ?? [];
  return findings.map(({ check, severity, message, range }) => ({ check, severity, message, range }));
}

function readFile(path: string): Change {
  return existsSync(path) ? { path, text: readFileSync(path, 'utf8') } : { path, absent: true };
}

async function byServer(client: LspClient, site: Site, file: string): Promise<readonly Said[]> {
  client.answer('setproof/read', ({ uris }: { uris: string[] }) => ({
    files: uris.map((uri) => {
      const path = fileURLToPath(uri);
      return existsSync(path) ? { text: readFileSync(path, 'utf8') } : { absent: true };
    }),
  }));
  client.answer('setproof/find', () => ({ uris: [] }));
  await client.initialize({
    workspaceFolders: [{ uri: site.uri(''), name: 'site' }],
    initializationOptions: { today: TODAY },
  });
  client.open(site.uri(file), site.read(file));
  const { diagnostics } = await client.publication(site.uri(file));
  client.transport.stop();
  return diagnostics.map(said);
}

function said({ code, severity, message, range }: Diagnostic): Said {
  return { check: code, severity: SEVERITIES[severity] ?? '', message, range };
}

function byCommandLine(site: Site, file: string): readonly Said[] {
  const args = [CLI, 'check', '--format', 'json', '--today', TODAY, '--fail-on', 'error', site.path(file)];
  const json = outputOf(args);
  const report = JSON.parse(json) as { files: { path: string; findings: Said[] }[] };
  const own = report.files.find(({ path }) => path.endsWith(file))?.findings ?? [];
  return own.map(({ check, severity, message, range }) => ({ check, severity, message, range }));
}

function outputOf(args: readonly string[]): string {
  try {
    return execFileSync(process.execPath, args, { encoding: 'utf8' });
  } catch (error) {
    // Findings end it with 1; what it wrote is what counts here.
    return (error as { stdout: string }).stdout;
  }
}

describe.each([WELL, TRANSFORMER, 'setproof.policy.yaml'])('%s gives equal findings', (file) => {
  it('over stdio', async () => {
    const site = siteWithMistakes();
    expect(await byServer(new LspClient(new StdioTransport()), site, file)).toEqual(byEngine(site, file));
  });

  it('in a worker, which reads through its client', async () => {
    const site = siteWithMistakes();
    expect(await byServer(new LspClient(new WorkerTransport()), site, file)).toEqual(byEngine(site, file));
  });

  it('on the command line', () => {
    const site = siteWithMistakes();
    expect(byCommandLine(site, file)).toEqual(byEngine(site, file));
  });
});

it('the well of this comparison has findings to compare', () => {
  const checks = byEngine(siteWithMistakes(), WELL).map(({ check }) => check);
  expect(checks).toEqual(expect.arrayContaining(['document.unknown-key']));
});

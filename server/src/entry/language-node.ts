// The language server for any editor, over standard input and output or what the extension asks for.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { ServedFiles } from '../host/node/served-files.ts';
import { ClientFiles, createServer, type Files, isLocal } from '../language/index.ts';
import { localDate } from './local-date.ts';

/** The pages of the checks as they are installed beside this program. */
const PAGES = new URL('../docs/checks/', import.meta.url);

// An editor that names no way of talking means standard input and output.
if (!process.argv.some((each) => /^--(?:stdio|node-ipc|socket|pipe)\b/.test(each))) process.argv.push('--stdio');

const connection = createConnection(ProposedFeatures.all);
createServer(connection, ({ servesFiles = false, today }) => ({
  files: servesFiles ? bothFiles(new ServedFiles(), new ClientFiles(connection)) : new ServedFiles(),
  today: () => today ?? localDate(),
  checkPages: existsSync(fileURLToPath(PAGES)) ? PAGES.href : undefined,
}));
connection.listen();

/** Files of this machine are read here, those of other schemes by the client. */
function bothFiles(local: Files, remote: Files): Files {
  const at = (path: string) => (isLocal(path) ? local : remote);
  return {
    open: (folders) => {
      local.open(folders.filter(isLocal));
      remote.open(folders.filter((each) => !isLocal(each)));
    },
    rootOf: (path) => at(path).rootOf(path),
    read: async (asked) => {
      const near = local.read(asked.filter(({ path }) => isLocal(path)));
      const far = asked.filter(({ path }) => !isLocal(path));
      return [...(await near), ...(far.length === 0 ? [] : await remote.read(far))];
    },
    find: (folder) => at(folder).find(folder),
  };
}

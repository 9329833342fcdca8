import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { ClientFiles, createServer } from '../language/index.ts';
import { localDate } from './local-date.ts';

const scope = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];
const connection = createConnection(new BrowserMessageReader(scope), new BrowserMessageWriter(scope));
createServer(connection, ({ today }) => ({
  files: new ClientFiles(connection),
  today: () => today ?? localDate(),
  checkPages: undefined,
}));
connection.listen();

import type { Connection } from 'vscode-languageserver';
import { capabilitiesFor } from './capabilities.ts';
import { followDocuments, followFiles } from './notifications.ts';
import { answerAtPlaces, answerDiagnostics, answerOnDocuments, answerOnWorkspace } from './requests.ts';
import { type MakeHost, Session } from './session.ts';
import { Upkeep } from './upkeep.ts';
import { answerViews } from './views/answers.ts';

declare const SETPROOF_VERSION: string;

/** Registers answers to requests of a client. */
type Register = (session: Session) => void;

const ANSWERS: readonly Register[] = [
  answerDiagnostics,
  answerAtPlaces,
  answerOnDocuments,
  answerOnWorkspace,
  answerViews,
];

/** Serves one client until it says goodbye. */
export function createServer(connection: Connection, makeHost: MakeHost): void {
  connection.onInitialize((params) => {
    const session = new Session(connection, makeHost, params);
    const upkeep = new Upkeep(session);
    followDocuments(session, upkeep);
    followFiles(session, upkeep);
    for (const register of ANSWERS) register(session);
    return {
      serverInfo: { name: 'setproof', version: SETPROOF_VERSION },
      capabilities: capabilitiesFor(session.client),
    };
  });
  connection.onShutdown(() => undefined);
}

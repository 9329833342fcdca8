import { type DocumentKind, VERSIONS } from '../../engine/index.ts';
import { starterDocument } from '../../render/starter/starter.ts';
import type { Session } from '../session.ts';
import { answerComparison } from './comparison.ts';
import { summaryOf } from './counts.ts';
import { answerPanels } from './panels.ts';
import { STARTER, type StarterParams, type StarterResult, SUMMARY, type SummaryResult } from './protocol.ts';
import { answerWells } from './wells.ts';

/** Answers what the views of an editor ask. */
export function answerViews(session: Session): void {
  const { connection, workspace } = session;
  connection.onRequest(
    SUMMARY,
    session.on<SummaryResult, { textDocument: { uri: string } }>((file) => summaryOf(workspace, file)),
  );
  connection.onRequest(STARTER, ({ kind, lift }: StarterParams): StarterResult | null =>
    isKind(kind) ? { text: starterDocument(kind, lift) } : null,
  );
  answerPanels(session);
  answerWells(session);
  answerComparison(session);
}

function isKind(text: string): text is DocumentKind {
  return Object.hasOwn(VERSIONS, text);
}

import { type QuickPickItem, window, workspace } from 'vscode';
import { STARTER, type StarterParams, type StarterResult } from '../../../server/src/language/views/protocol.ts';
import type { Session } from './session.ts';

interface Kind extends QuickPickItem {
  readonly document: string;
  readonly lift?: 'linear' | 'rotary';
}

const KINDS: readonly Kind[] = [
  {
    label: 'Installation, linear',
    document: 'installation',
    lift: 'linear',
    description: 'plunger pump and linear motor',
  },
  { label: 'Installation, rotary', document: 'installation', lift: 'rotary', description: 'centrifugal pump' },
  { label: 'Pump, linear', document: 'pump', lift: 'linear', description: 'data sheet' },
  { label: 'Pump, rotary', document: 'pump', lift: 'rotary', description: 'data sheet' },
  { label: 'Motor, linear', document: 'motor', lift: 'linear', description: 'data sheet' },
  { label: 'Motor, rotary', document: 'motor', lift: 'rotary', description: 'data sheet' },
  { label: 'Cable', document: 'cable', description: 'data sheet' },
  { label: 'Transformer', document: 'transformer', description: 'data sheet' },
  { label: 'Drive', document: 'drive', description: 'data sheet' },
  { label: 'Gauge', document: 'gauge', description: 'data sheet' },
  { label: 'Readings', document: 'readings', description: 'what was measured on site' },
  { label: 'Policy', document: 'policy', description: 'what holds for all documents of a folder' },
];

/** Opens a commented document to begin with, not saved yet. */
export async function newDocument(session: Session): Promise<void> {
  const chosen = await window.showQuickPick(KINDS, { title: 'New document', placeHolder: 'What is to be described?' });
  if (chosen === undefined) return;
  await session.start();
  const params: StarterParams = { kind: chosen.document, lift: chosen.lift };
  const starter = await session.ask<StarterResult>(STARTER, params);
  if (starter === undefined) {
    await window.showErrorMessage('The language server did not answer. "Setproof: Show the log" may say why.');
    return;
  }
  const document = await workspace.openTextDocument({ language: 'yaml', content: starter.text });
  await window.showTextDocument(document);
}

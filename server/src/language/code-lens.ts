import type { CodeLens, Command } from 'vscode-languageserver';
import { type CheckedFile, countsOf } from '../engine/index.ts';
import type { Client } from './client.ts';
import { OPEN_CHECKLIST, OPEN_WORKSHEET, SHOW_NOT_RUN } from './protocol.ts';
import { countsWords } from './views/counts.ts';

const TOP = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** Over a document: its findings and what was not run in words, and the ways to worksheet and checklist. */
export function codeLenses(file: CheckedFile, { commands }: Client, uri: string): CodeLens[] {
  const range = topOf(file);
  const lens = (title: string, command: string): CodeLens[] =>
    commands.has(command) ? [{ range, command: { title, command, arguments: [uri] } }] : [];
  const isWell = file.document.kind === 'installation';
  return [
    { range, command: countsCommand(file, commands, uri) },
    ...(isWell ? lens('Open worksheet', OPEN_WORKSHEET) : []),
    ...(isWell ? lens('Open checklist', OPEN_CHECKLIST) : []),
  ];
}

/** Leads to what was not run, if anything; an empty command is a text that only tells. */
function countsCommand(file: CheckedFile, commands: Client['commands'], uri: string): Command {
  const counts = countsOf(file);
  const title = countsWords(counts);
  const leads = counts.notRun > 0 && commands.has(SHOW_NOT_RUN);
  return leads ? { title, command: SHOW_NOT_RUN, arguments: [uri] } : { title, command: '' };
}

/** The line that says what the file is; comments may stand above it. */
function topOf({ document }: CheckedFile) {
  const { tree, source } = document;
  const first = tree.find('document');
  return first < 0 ? TOP : source.rangeOf(tree.keySpan(first));
}

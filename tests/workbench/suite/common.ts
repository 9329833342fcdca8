import * as vscode from 'vscode';
import { equal, eventually, isTrue, test } from './runner.ts';
import {
  applyFix,
  asked,
  close,
  finding,
  findingsOf,
  hoverAt,
  noFinding,
  replace,
  SECOND_WELL,
  show,
  TRANSFORMER,
  takeGoodTap,
  takeLowTap,
  uriOf,
  WELL,
} from './site.ts';

test('the extension starts for a document of ours', async () => {
  await show(WELL);
  const extension = vscode.extensions.getExtension('setproof.setproof');
  isTrue(extension !== undefined, 'the extension is not installed');
  await eventually('the extension', () => extension?.isActive || undefined);
});

test('a finding stands at its entry, with the id of its check', async () => {
  const document = await show(WELL);
  await takeLowTap(document);
  const { range, message, severity, relatedInformation } = await finding(WELL, 'tap.below-window');
  equal(document.getText(range), '1', 'the text under the finding');
  equal(severity, vscode.DiagnosticSeverity.Error, 'its severity');
  isTrue(message.includes('600 V'), `the message gives no numbers: ${message}`);
  isTrue((relatedInformation ?? []).length > 0, 'nothing is said of what the bound rests on');
});

test('data sheets are read: none is missed', async () => {
  equal(findingsOf(WELL, 'reference.not-found').length, 0, 'data sheets not found');
});

test('a hover shows the values case by case', async () => {
  const document = await show(WELL);
  const text = await hoverAt(document, 'water_cut: 4');
  isTrue(text.includes('fluid.produced_density') && text.includes('target'), `the hover says only: ${text}`);
});

test('completion gives taps with their verdict', async () => {
  const document = await show(WELL);
  const position = document.positionAt(document.getText().indexOf('{ tap: 1') + '{ tap: 1'.length);
  const command = 'vscode.executeCompletionItemProvider';
  const { items } = await asked<vscode.CompletionList>(command, document.uri, position);
  const tap = items.find(({ detail }) => detail?.includes('too low'));
  isTrue(tap !== undefined, `no verdict among ${items.map(({ detail }) => detail).join(' | ')}`);
});

test('the quick fix takes a tap that serves, and the finding is gone', async () => {
  const document = await show(WELL);
  const { range } = await finding(WELL, 'tap.below-window');
  await applyFix(document, range, 'tap 2');
  await noFinding(WELL, 'tap.below-window');
});

test('a deviation is recorded, and accepts nothing before somebody has signed it', async () => {
  const document = await show(WELL);
  const { range } = await finding(WELL, 'cable.voltage-drop');
  await applyFix(document, range, 'Record a deviation');
  isTrue(/deviations:\s+- check: cable\.voltage-drop/.test(document.getText()), 'no deviation stands in the document');
  await finding(WELL, 'deviation.unapproved');
  await vscode.commands.executeCommand('undo');
  await noFinding(WELL, 'deviation.unapproved');
});

test('the lens over a document opens the worksheet, the checklist and what was not run', async () => {
  const document = await show(WELL);
  const lenses = await eventually('lenses', async () => {
    const found = await asked<vscode.CodeLens[]>('vscode.executeCodeLensProvider', document.uri, 9);
    return found.length > 0 ? found : undefined;
  });
  const commands = new Set(await vscode.commands.getCommands(true));
  const named = lenses.map(({ command }) => command?.command ?? '').filter((each) => each.startsWith('setproof.'));
  isTrue(named.length >= 3, `only ${named.join(', ')}`);
  equal(
    named.filter((each) => !commands.has(each)),
    [],
    'commands that nobody answers',
  );
});

test('a panel opens beside the editor, once', async () => {
  const document = await show(WELL);
  for (const command of ['setproof.openWorksheet', 'setproof.openChecklist', 'setproof.openWorksheet']) {
    await vscode.commands.executeCommand(command, document.uri.toString());
  }
  await eventually('both panels', () => panelLabels().length === 2 || undefined);
  await eventually('their titles', () => panelLabels().every((label) => label.endsWith('A2-07')) || undefined);
});

test('a data sheet that changes in its editor re-checks the well', async () => {
  const sheet = await show(TRANSFORMER);
  await show(WELL);
  await replace(sheet, 'tap: 2, voltage: 900 V', 'tap: 2, voltage: 700 V');
  await finding(WELL, 'tap.below-window');
  await replace(sheet, 'tap: 2, voltage: 700 V', 'tap: 2, voltage: 900 V');
  await noFinding(WELL, 'tap.below-window');
});

test('a data sheet that changes on disk re-checks wells that no editor holds', async () => {
  await close(WELL);
  await close(TRANSFORMER);
  const original = await vscode.workspace.fs.readFile(uriOf(TRANSFORMER));
  const changed = new TextDecoder().decode(original).replace('tap: 2, voltage: 900 V', 'tap: 2, voltage: 700 V');
  await vscode.workspace.fs.writeFile(uriOf(TRANSFORMER), new TextEncoder().encode(changed));
  await finding(SECOND_WELL, 'tap.below-window');
  await vscode.workspace.fs.writeFile(uriOf(TRANSFORMER), original);
  await noFinding(SECOND_WELL, 'tap.below-window');
});

test('a data sheet that is renamed takes its users along', async () => {
  const document = await show(WELL);
  const position = document.positionAt(document.getText().indexOf('../equipment/gauge.yaml') + 4);
  const rename = 'vscode.executeDocumentRenameProvider';
  const edit = await asked<vscode.WorkspaceEdit>(rename, document.uri, position, '../equipment/gauge-2.yaml');
  const changed = edit.entries().map(([uri]) => uri.path.split('/').at(-1));
  isTrue(changed.includes('a2-07.yaml') && changed.includes('a2-08.yaml'), `it changes only ${changed.join(', ')}`);
});

test('files of others are left alone', async () => {
  await show('other.yaml');
  await show(WELL);
  equal(vscode.languages.getDiagnostics(uriOf('other.yaml')).length, 0, 'findings in a file of others');
});

test('the walkthrough has its pictures, and somebody answers each of its commands', async () => {
  const extension = vscode.extensions.getExtension('setproof.setproof') as vscode.Extension<unknown>;
  const steps: readonly Step[] = extension.packageJSON.contributes.walkthroughs[0].steps;
  equal(steps.length, 5, 'its steps');
  const commands = new Set(await vscode.commands.getCommands(true));
  for (const { id, description, media, completionEvents } of steps) {
    const named = [...description.matchAll(/\(command:([\w.]+)\)/g)].map(([, command = '']) => command);
    equal(completionEvents, [`onCommand:${named[0]}`], `what ends the step '${id}'`);
    equal(
      named.filter((each) => !commands.has(each)),
      [],
      `commands of the step '${id}' that nobody answers`,
    );
    await vscode.workspace.fs.stat(vscode.Uri.joinPath(extension.extensionUri, media.markdown ?? media.svg ?? ''));
  }
});

interface Step {
  readonly id: string;
  readonly description: string;
  readonly media: { readonly markdown?: string; readonly svg?: string };
  readonly completionEvents: readonly string[];
}

test('the server comes back when it is asked to', async () => {
  const document = await show(WELL);
  await vscode.commands.executeCommand('setproof.restartServer');
  await takeLowTap(document);
  await finding(WELL, 'tap.below-window');
  await takeGoodTap(document);
  await noFinding(WELL, 'tap.below-window');
});

function panelLabels(): readonly string[] {
  const tabs = vscode.window.tabGroups.all.flatMap((group) => group.tabs);
  return tabs.filter(({ input }) => input instanceof vscode.TabInputWebview).map(({ label }) => label);
}

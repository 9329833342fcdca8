import { type TextDocument, Uri, workspace } from 'vscode';

const POLICY = 'setproof.policy.yaml';
const KINDS = 'installation|pump|motor|cable|transformer|drive|gauge|readings|policy';
/** The `document` key, with nothing but comments before it. */
const LABEL = new RegExp(`^(?:\\s*(?:#.*|---)?\\r?\\n)*["']?document["']?\\s*:\\s*["']?(?:${KINDS})/`);
/** A label stands at the top; nobody waits for the end of a large file of others. */
const FAR_ENOUGH = 4000;

/** Whether a document says in its first key that it is ours. */
export function isOurs(document: TextDocument): boolean {
  return document.languageId === 'yaml' && LABEL.test(document.getText().slice(0, FAR_ENOUGH));
}

/** Whether there is anything of ours: a document in an editor, or a policy in the workspace. */
export async function hasAnythingOfOurs(): Promise<boolean> {
  if (workspace.textDocuments.some(isOurs)) return true;
  if ((await workspace.findFiles(`**/${POLICY}`, '**/node_modules/**', 1)).length > 0) return true;
  // A file system without a search of its own finds nothing; most policies stand at the top.
  const tops = (workspace.workspaceFolders ?? []).map(({ uri }) => isThere(Uri.joinPath(uri, POLICY)));
  return (await Promise.all(tops)).includes(true);
}

export function isThere(uri: Uri): Promise<boolean> {
  return Promise.resolve(workspace.fs.stat(uri)).then(
    () => true,
    () => false,
  );
}

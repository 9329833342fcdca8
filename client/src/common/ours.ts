import { type TextDocument, workspace } from 'vscode';

const POLICY = '**/setproof.policy.yaml';
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
  return (await workspace.findFiles(POLICY, '**/node_modules/**', 1)).length > 0;
}

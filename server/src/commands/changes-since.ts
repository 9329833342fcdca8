import { existsSync } from 'node:fs';
import { folderOf } from '../engine/index.ts';
import { changedFiles, gitRoot, standingFolder } from '../host/node/git.ts';
import type { Survey } from './checking/inspector.ts';

/**
 * Whether a document may have changed its findings since a revision: it was changed itself, or a file that it refers to,
 * or a policy that governs it.
 * @param asked the files and folders of the run, whose repositories are looked at
 * @throws Refusal where there is no git, no repository or no such revision
 */
export function changesSince(revision: string, asked: readonly string[]): (survey: Survey) => boolean {
  const roots = new Set(asked.map((path) => gitRoot(standingFolder(existsAsFolder(path)))));
  const changed = new Set([...roots].flatMap((root) => changedFiles(root, revision)));
  const exists = remembered(existsSync);
  return ({ path, references, policies }) =>
    changed.has(path) ||
    references.some((each) => changed.has(each)) ||
    // A policy that was taken away governed as well; one behind the nearest never did.
    policies.slice(0, nearest(policies, exists) + 1).some((each) => changed.has(each));
}

function existsAsFolder(path: string): string {
  return existsSync(`${path}/.`) ? path : folderOf(path);
}

function nearest(policies: readonly string[], exists: (path: string) => boolean): number {
  const at = policies.findIndex(exists);
  return at < 0 ? policies.length : at;
}

function remembered(ask: (path: string) => boolean): (path: string) => boolean {
  const answers = new Map<string, boolean>();
  return (path) => {
    const answer = answers.get(path) ?? ask(path);
    answers.set(path, answer);
    return answer;
  };
}

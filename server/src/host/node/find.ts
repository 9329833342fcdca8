import { type Stats, statSync } from 'node:fs';
import { compareText, folderOf, isInside } from '../../engine/index.ts';
import { Ignored } from './ignored.ts';
import { isAbsence, reasonOf } from './reasons.ts';
import type { Roots } from './root.ts';
import { type Trouble, walk } from './walk.ts';

export interface FoundFile {
  readonly path: string;
  /** Whether it was named itself, and not only a folder above it. */
  readonly named: boolean;
}

export interface FoundFiles {
  /** In the order of their paths, each once. */
  readonly files: readonly FoundFile[];
  readonly troubles: readonly Trouble[];
}

/**
 * The files behind names: a file for itself, a folder for all below it that may be documents and that no policy leaves
 * out.
 * @param names absolute paths with `/`
 * @param policy a policy that holds everywhere instead of the nearest one
 */
export function findFiles(names: readonly string[], roots: Roots, policy?: string): FoundFiles {
  const named = new Map<string, boolean>();
  const troubles: Trouble[] = [];
  for (const name of names) {
    const status = statusOf(name);
    if ('reason' in status) troubles.push({ path: name, reason: status.reason });
    else if (!status.isDirectory()) named.set(name, true);
    else {
      const walked = walk(name, roots, ignoredAbove(name, roots, policy).leavingIn(name), policy === undefined);
      for (const path of walked.files) if (!named.has(path)) named.set(path, false);
      troubles.push(...walked.troubles);
    }
  }
  const files = [...named].map(([path, isNamed]) => ({ path, named: isNamed }));
  return { files: files.sort((a, b) => compareText(a.path, b.path)), troubles };
}

function statusOf(path: string): Stats | Trouble {
  try {
    return statSync(path);
  } catch (error) {
    return { path, reason: isAbsence(error) ? 'there is no such file or folder' : reasonOf(error) };
  }
}

/** The patterns in force where a walk begins: those of the policies above it, up to the root. */
function ignoredAbove(folder: string, roots: Roots, policy: string | undefined): Ignored {
  if (policy !== undefined) return new Ignored().withPolicy(policy);
  let ignored = new Ignored();
  const root = roots.ofFolder(folder);
  for (let at = folderOf(folder); isInside(at, root) && at !== ''; at = folderOf(at))
    ignored = ignored.withPolicyIn(at);
  return ignored;
}

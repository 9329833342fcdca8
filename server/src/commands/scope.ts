import { statSync } from 'node:fs';
import { isInside, type RepositoryOptions, readDocument } from '../engine/index.ts';
import { absolutePath, relativePath } from '../host/node/paths.ts';
import { readTextFile } from '../host/node/read.ts';
import { Roots } from '../host/node/root.ts';
import { Refusal, type Surroundings } from './surroundings.ts';

/** Options that say what documents are judged by; the same for all commands that read them. */
export interface ScopeArguments {
  readonly root?: string | undefined;
  readonly policy?: string | undefined;
  readonly today?: string | undefined;
}

export interface Scope {
  readonly roots: Roots;
  readonly options: RepositoryOptions;
  /** A path as it is named here: relative to the working directory. */
  readonly nameOf: (path: string) => string;
  /** @throws Refusal for a document outside of the root that was asked for */
  readonly admit: (path: string) => void;
}

/** @throws Refusal for a root, a policy or a day that cannot be used */
export function scopeOf(
  { root, policy, today }: ScopeArguments,
  surroundings: Pick<Surroundings, 'cwd' | 'today'>,
): Scope {
  const { cwd } = surroundings;
  const nameOf = (path: string) => relativePath(cwd, path);
  const everywhere = root === undefined ? undefined : rootFolder(cwd, root);
  const options = {
    root: everywhere ?? cwd,
    today: today === undefined ? surroundings.today : dayOf(today),
    ...(policy === undefined ? {} : { policy: policyFile(cwd, policy) }),
  };
  const admit = (path: string) => {
    if (everywhere === undefined || isInside(path, everywhere)) return;
    throw new Refusal(`'${nameOf(path)}' lies outside of the root '${nameOf(everywhere)}'.`);
  };
  return { roots: new Roots(cwd, everywhere), options, nameOf, admit };
}

function rootFolder(cwd: string, name: string): string {
  const path = absolutePath(cwd, name);
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) return path;
  throw new Refusal(`The root '${name}' is no folder.`);
}

/** A policy that cannot be read right must not be half in force. */
function policyFile(cwd: string, name: string): string {
  const path = absolutePath(cwd, name);
  const reading = readTextFile(path);
  if ('absent' in reading) throw new Refusal(`There is no policy '${name}'.`);
  if ('unreadable' in reading) throw new Refusal(`The policy '${name}' cannot be read: ${reading.unreadable}.`);
  if (readDocument(path, reading.text).kind === 'policy') return path;
  throw new Refusal(`'${name}' is no policy: it has to say 'document: policy/1'.`);
}

function dayOf(text: string): string {
  const day = new Date(`${text}T00:00:00Z`);
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
  if (isDay) return text;
  throw new Refusal(`'${text}' is no date; write it as 2026-03-14.`);
}

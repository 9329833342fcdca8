import { statSync } from 'node:fs';
import { type CheckedFile, type Repository, type Worked, withArticle } from '../engine/index.ts';
import { loadDocuments } from '../host/node/load.ts';
import { absolutePath } from '../host/node/paths.ts';
import { counted } from '../render/text/lines.ts';
import { type Scope, type ScopeArguments, scopeOf } from './scope.ts';
import { Refusal, type Surroundings, say } from './surroundings.ts';

export interface OpenedInstallation {
  readonly file: CheckedFile;
  readonly worked: Worked;
  readonly scope: Scope;
  readonly repository: Repository;
}

/** Reads and checks the one installation that a command is about. @throws Refusal where there is none */
export function openInstallation(name: string, args: ScopeArguments, surroundings: Surroundings): OpenedInstallation {
  const scope = scopeOf(args, surroundings);
  const path = absolutePath(surroundings.cwd, name);
  scope.admit(path);
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory())
    throw new Refusal(`'${name}' is a folder; name a file.`);
  const { repository, troubles } = loadDocuments([path], scope.roots, scope.options);
  const [trouble] = troubles;
  if (trouble !== undefined) throw new Refusal(`'${scope.nameOf(trouble.path)}' cannot be read: ${trouble.reason}.`);
  const file = repository.check(path);
  if (file?.document.kind !== 'installation') throw new Refusal(`'${name}' is no installation: ${reasonIn(file)}`);
  if (file.worked === undefined)
    throw new Refusal(`The values of '${name}' could not be worked out; 'setproof check' says more.`);
  tellErrors(name, file, surroundings);
  return { file, worked: file.worked, scope, repository };
}

function reasonIn(file: CheckedFile | undefined): string {
  const { kind, problems } = file?.document ?? { kind: undefined, problems: [] };
  if (kind !== undefined) return `it is ${withArticle(kind)}/1.`;
  return problems[0]?.message ?? "it has no key 'document' that says so.";
}

function tellErrors(name: string, { findings }: CheckedFile, surroundings: Surroundings): void {
  const errors = findings.filter(({ severity, deviated }) => severity === 'error' && !deviated).length;
  if (errors > 0) say(surroundings, `'${name}' has ${counted(errors, 'error')}; 'setproof check' names them.`);
}

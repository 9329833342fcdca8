import { tidy as tidied } from '../engine/index.ts';
import { findFiles } from '../host/node/find.ts';
import { loadDocuments } from '../host/node/load.ts';
import { absolutePath } from '../host/node/paths.ts';
import { reasonOf } from '../host/node/reasons.ts';
import { realPath } from '../host/node/root.ts';
import { WholeFile } from '../host/node/write.ts';
import { visible } from '../render/escape.ts';
import { counted } from '../render/text/lines.ts';
import { type Scope, type ScopeArguments, scopeOf } from './scope.ts';
import { EXIT, Refusal, running, type Surroundings, say } from './surroundings.ts';

export interface TidyArguments extends Pick<ScopeArguments, 'root'> {
  /** Files and folders; the working directory without any. */
  readonly paths: readonly string[];
  readonly inPlace?: boolean | undefined;
}

interface Change {
  readonly path: string;
  readonly before: string;
  readonly after: string;
}

/**
 * `setproof tidy`: spells units as they are written here and mends what is a matter of spelling. Shows what would change,
 * or changes it in place: all of the files or none. 0 when that is done, 2 if not everything could be read.
 */
export function tidy(args: TidyArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const scope = scopeOf(args, surroundings);
    const { changes, isComplete } = changesIn(args.paths, scope, surroundings);
    if (args.inPlace === true) writeAll(changes, scope);
    for (const change of changes) surroundings.stdout.write(`${told(change, scope).map(visible).join('\n')}\n`);
    const verb = args.inPlace === true ? 'tidied' : 'would be tidied';
    surroundings.stdout.write(`${counted(changes.length, 'file')} ${verb}.\n`);
    return isComplete ? EXIT.done : EXIT.failed;
  });
}

function changesIn(
  names: readonly string[],
  scope: Scope,
  surroundings: Surroundings,
): { readonly changes: readonly Change[]; readonly isComplete: boolean } {
  const asked = (names.length === 0 ? ['.'] : names).map((name) => absolutePath(surroundings.cwd, name));
  const found = findFiles(asked, scope.roots, scope.options.policy);
  const changes: Change[] = [];
  const troubles = [...found.troubles];
  for (const { path } of found.files) {
    scope.admit(path);
    const loaded = loadDocuments([path], scope.roots, scope.options);
    troubles.push(...loaded.troubles);
    const document = loaded.repository.document(path);
    const after = document === undefined ? undefined : tidied(document);
    const before = document?.source.text;
    if (before !== undefined && after !== undefined && before !== after) changes.push({ path, before, after });
  }
  for (const { path, reason } of troubles) say(surroundings, `'${scope.nameOf(path)}' was not tidied: ${reason}.`);
  return { changes, isComplete: troubles.length === 0 };
}

/** Writes all beside their places first, so that a full disk or a forbidden folder leaves every file as it was. */
function writeAll(changes: readonly Change[], { nameOf }: Scope): void {
  const files: WholeFile[] = [];
  for (const { path, after } of changes) {
    try {
      // A link stays a link; what it leads to is written.
      const file = new WholeFile(realPath(path) ?? path);
      files.push(file);
      file.write(after);
    } catch (error) {
      for (const each of files) each.abandon();
      throw new Refusal(`'${nameOf(path)}' cannot be written: ${reasonOf(error)}. No file was changed.`);
    }
  }
  for (const file of files) file.finish();
}

/** The lines that change, before and after. */
function told({ path, before, after }: Change, { nameOf }: Scope): readonly string[] {
  const [old, now] = [before, after].map((text) => text.split(/\r\n|\n|\r/));
  if (old === undefined || now === undefined || old.length !== now.length) return [nameOf(path), '  its lines change'];
  return [
    nameOf(path),
    ...old.flatMap((line, at) =>
      line === now[at] ? [] : [`  line ${at + 1}`, `  - ${line.trim()}`, `  + ${now[at]?.trim() ?? ''}`],
    ),
  ];
}

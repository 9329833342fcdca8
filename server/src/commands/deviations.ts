import { type CheckedFile, deviationsOf, type Repository } from '../engine/index.ts';
import { findFiles } from '../host/node/find.ts';
import { loadDocuments } from '../host/node/load.ts';
import { absolutePath } from '../host/node/paths.ts';
import {
  type DeviationReport,
  deviationsJson,
  deviationsMarkdown,
  deviationsText,
} from '../render/deviations/report.ts';
import { writeOutput } from './output.ts';
import { type ScopeArguments, scopeOf } from './scope.ts';
import { EXIT, running, type Surroundings, say, styleOf } from './surroundings.ts';

export interface DeviationsArguments extends ScopeArguments {
  /** Files and folders; the working directory without any. */
  readonly paths: readonly string[];
  readonly format?: 'text' | 'json' | 'markdown' | undefined;
  readonly output?: string | undefined;
  readonly color?: boolean | undefined;
}

/** `setproof deviations`: what a fleet accepts, by whom, until when. 0 when it is written, 2 if not all could be read. */
export function deviations(args: DeviationsArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const scope = scopeOf(args, surroundings);
    const names = args.paths.length === 0 ? [surroundings.cwd] : args.paths;
    const asked = names.map((name) => absolutePath(surroundings.cwd, name));
    for (const path of asked) scope.admit(path);
    const found = findFiles(asked, scope.roots, scope.options.policy);
    const paths = found.files.map(({ path }) => path);
    const loaded = loadDocuments(paths, scope.roots, scope.options);
    const troubles = [...found.troubles, ...loaded.troubles];
    for (const { path, reason } of troubles) say(surroundings, `'${scope.nameOf(path)}' was not read: ${reason}.`);
    const files = installationsIn(loaded.repository, paths);
    const { today } = scope.options;
    const listed = deviationsOf(files, today);
    const report = { deviations: listed, installations: files.length, today, nameOf: scope.nameOf };
    writeOutput(args.output, written(report, args, surroundings), surroundings);
    return troubles.length > 0 ? EXIT.failed : EXIT.done;
  });
}

function installationsIn(repository: Repository, paths: readonly string[]): readonly CheckedFile[] {
  return paths
    .filter((path) => repository.document(path)?.kind === 'installation')
    .flatMap((path) => repository.check(path) ?? []);
}

function written(report: DeviationReport, args: DeviationsArguments, surroundings: Surroundings): string {
  if (args.format === 'json') return deviationsJson(report);
  return args.format === 'markdown' ? deviationsMarkdown(report) : deviationsText(report, styleOf(args, surroundings));
}

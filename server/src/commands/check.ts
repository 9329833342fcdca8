import { atLeast, type CheckedFile, INTERNAL, type Repository, type Severity } from '../engine/index.ts';
import { findFiles } from '../host/node/find.ts';
import { loadDocuments } from '../host/node/load.ts';
import { absolutePath } from '../host/node/paths.ts';
import type { Trouble } from '../host/node/walk.ts';
import { NOTHING, type Summary, withFile } from '../render/report.ts';
import { chooseDocuments } from './choose.ts';
import { Progress } from './progress.ts';
import { openReports, type ReportArguments } from './reports.ts';
import { type Scope, type ScopeArguments, scopeOf } from './scope.ts';
import { EXIT, running, type Surroundings, say } from './surroundings.ts';

export interface CheckArguments extends ScopeArguments, ReportArguments {
  /** Files and folders; the working directory without any. */
  readonly paths: readonly string[];
  /** Findings from this severity on make the exit status 1. */
  readonly failOn?: Severity | undefined;
}

/** `setproof check`: 0 without findings from `failOn` on, 1 with one, 2 if not all could be checked. */
export function check(args: CheckArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const scope = scopeOf(args, surroundings);
    const given = gather(args.paths, scope, surroundings);
    const reports = await openReports(args, scope.nameOf, surroundings);
    const outcome = reports.writing(() => checkAll(given, reports.write, args.failOn ?? 'error', surroundings));
    return given.hasTrouble || outcome.hasFailed ? EXIT.failed : outcome.hasFindings ? EXIT.findings : EXIT.done;
  });
}

interface Given {
  readonly repository: Repository;
  readonly paths: readonly string[];
  /** How many files turned out not to be ours. */
  readonly ignored: number;
  readonly hasTrouble: boolean;
}

function gather(names: readonly string[], scope: Scope, surroundings: Surroundings): Given {
  const asked = names.length === 0 ? ['.'] : names;
  const { roots, options } = scope;
  const found = findFiles(
    asked.map((name) => absolutePath(surroundings.cwd, name)),
    roots,
    options.policy,
  );
  for (const { path } of found.files) scope.admit(path);
  const loaded = loadDocuments(
    found.files.map(({ path }) => path),
    roots,
    options,
  );
  const troubles = [...found.troubles, ...loaded.troubles];
  for (const trouble of troubles) tell(trouble, scope, surroundings);
  const { documents, strangers, ignored } = chooseDocuments(found.files, loaded.repository);
  for (const path of strangers) {
    say(
      surroundings,
      `'${scope.nameOf(path)}' is no document of Setproof: it has no key 'document' that says what it is.`,
    );
  }
  const isNothing = documents.length === 0 && troubles.length === 0 && strangers.length === 0;
  if (isNothing)
    say(surroundings, `There is no document of Setproof in ${asked.map((name) => `'${name}'`).join(', ')}.`);
  const hasTrouble = isNothing || troubles.length > 0 || strangers.length > 0;
  return { repository: loaded.repository, paths: documents, ignored, hasTrouble };
}

function tell({ path, reason }: Trouble, { nameOf }: Scope, surroundings: Surroundings): void {
  say(surroundings, `'${nameOf(path)}' was not checked: ${reason}.`);
}

interface CheckOutcome {
  readonly summary: Summary;
  readonly hasFindings: boolean;
  /** Whether a check, or the check of a file, failed itself. */
  readonly hasFailed: boolean;
}

function checkAll(
  { repository, paths, ignored }: Given,
  write: (file: CheckedFile) => void,
  failOn: Severity,
  surroundings: Surroundings,
): CheckOutcome {
  const progress = new Progress(paths.length, surroundings.stderr);
  let outcome: CheckOutcome = { summary: { ...NOTHING, ignored }, hasFindings: false, hasFailed: false };
  for (const path of paths) {
    const file = checkOne(repository, path, surroundings);
    if (file !== undefined) write(file);
    outcome = withOutcome(outcome, file, failOn);
    progress.step();
  }
  progress.end();
  return outcome;
}

/** One file that cannot be checked does not end the run. */
function checkOne(repository: Repository, path: string, surroundings: Surroundings): CheckedFile | undefined {
  try {
    return repository.check(path);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    say(surroundings, `Setproof failed itself on '${path}' (${reason}). Please report it with this file.`);
    return undefined;
  }
}

function withOutcome(before: CheckOutcome, file: CheckedFile | undefined, failOn: Severity): CheckOutcome {
  if (file === undefined) return { ...before, hasFailed: true };
  const counts = file.findings.some(({ severity, deviated }) => !deviated && atLeast(severity, failOn));
  return {
    summary: withFile(before.summary, file),
    hasFindings: before.hasFindings || counts,
    hasFailed: before.hasFailed || file.findings.some((finding) => finding.check === INTERNAL),
  };
}

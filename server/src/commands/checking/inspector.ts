import {
  atLeast,
  type Change,
  type CheckedFile,
  type Document,
  type FleetLedger,
  INTERNAL,
  keysOf,
  LedgerReader,
  Repository,
  readDocument,
  type WellFacts,
  wellFactsOf,
} from '../../engine/index.ts';
import { readDocumentFile, readWanted, troubleIn } from '../../host/node/load.ts';
import { readTextFile } from '../../host/node/read.ts';
import { mayBeDocument, type Trouble } from '../../host/node/walk.ts';
import { isOpen, NOTHING, type Report, type Summary, withFile } from '../../render/report.ts';
import { type Scope, scopeOf } from '../scope.ts';
import { type AcceptedEntry, entryOf, matchAccepted } from './accepted.ts';
import { reportOf } from './report-of.ts';
import type { Means, Setup } from './setup.ts';

/** What a first reading of a file tells, as plain data. */
export interface Survey {
  readonly path: string;
  /** `broken` is what cannot be read right and may well be one of ours. */
  readonly standing: 'ours' | 'broken' | 'stranger' | 'unread';
  /** Of an installation: by what it is compared with others. */
  readonly keys: readonly string[] | undefined;
  /** Files that it refers to. */
  readonly references: readonly string[];
  /** Where its policy may stand, nearest first. */
  readonly policies: readonly string[];
  readonly troubles: readonly Trouble[];
}

/** How checking one file ended, as plain data. */
export interface Inspected {
  readonly path: string;
  /** What each report says of it. */
  readonly pieces: readonly string[];
  readonly summary: Summary;
  readonly notRun: readonly (readonly [check: string, missing: readonly string[]])[];
  readonly hasFindings: boolean;
  /** Whether a check failed itself, or with what words all of them did. */
  readonly failed: boolean | string;
  /** Places of the accepted entries of which something is found. */
  readonly met: readonly number[];
  /** What an entry would be of each finding that counts or is accepted. */
  readonly acceptable: readonly AcceptedEntry[];
}

export interface Inspection {
  readonly files: readonly Inspected[];
  readonly troubles: readonly Trouble[];
}

/** Documents that are kept for those that refer to them; with more, all are let go of and read again. */
const MOST_KEPT = 1000;
/** A run over no more files than this reads each once; a longer one lets go of them, and reads them again. */
const SMALL_RUN = 100;
const MOST_FACTS = 500;

/** Reads and checks files in batches, and keeps little of them. Runs in the process itself and in each worker. */
export class Inspector {
  readonly #setup: Setup;
  readonly #scope: Scope;
  readonly #reports: readonly Report[];
  /** What documents refer to and are governed by. */
  #base: Repository;
  #kept = 0;
  #fleet: LedgerReader | undefined;
  readonly #facts = new Map<string, WellFacts | undefined>();

  private constructor(setup: Setup, scope: Scope, reports: readonly Report[]) {
    this.#setup = setup;
    this.#scope = scope;
    this.#reports = reports;
    this.#base = Repository.empty(scope.options);
  }

  static async create(setup: Setup, means: Means): Promise<Inspector> {
    const scope = scopeOf(setup.scope, { cwd: setup.cwd, today: setup.scope.today });
    const reports = setup.reports.map((form) => reportOf(form, setup, means, scope.nameOf));
    return new Inspector(setup, scope, await Promise.all(reports));
  }

  /** Reads files for what must be known before any of them is checked. */
  survey(paths: readonly string[]): readonly Survey[] {
    const changes = paths.map((path) => readDocumentFile(path, this.#scope.roots));
    const held = this.#base.update(changes);
    if (this.#kept + paths.length <= SMALL_RUN) {
      this.#base = held;
      this.#kept += paths.length;
    }
    return changes.map((change) => surveyOf(change, held));
  }

  /** The installations that those to be checked are compared with. */
  meet(fleet: FleetLedger): void {
    this.#fleet = new LedgerReader(fleet, (path) => this.#factsOf(path));
  }

  check(paths: readonly string[]): Inspection {
    const { repository, troubles } = this.#hold(paths.map((path) => readDocumentFile(path, this.#scope.roots)));
    return { files: paths.flatMap((path) => this.#inspect(path, repository) ?? []), troubles };
  }

  /** Documents with all that they need. What they refer to is kept for the next ones; they are not. */
  #hold(changes: readonly Change[]): { readonly repository: Repository; readonly troubles: readonly Trouble[] } {
    if (this.#base.size > MOST_KEPT) this.#base = Repository.empty(this.#scope.options);
    const troubles: Trouble[] = [];
    let repository = this.#base.update(changes);
    for (;;) {
      const wanted = readWanted(repository, this.#scope.roots);
      if (wanted.changes.length === 0) return { repository, troubles };
      troubles.push(...wanted.troubles);
      this.#base = this.#base.update(wanted.changes);
      repository = repository.update(wanted.changes);
    }
  }

  /** One file that cannot be checked does not end the run. */
  #inspect(path: string, repository: Repository): Inspected | undefined {
    try {
      // A set of its own, so that what was worked out for one file is let go of before the next.
      const file = repository.update([]).check(path, this.#fleet);
      return file === undefined ? undefined : this.#told(file);
    } catch (error) {
      const failed = error instanceof Error ? error.message : String(error);
      const pieces = this.#reports.map(() => '');
      return { path, pieces, summary: NOTHING, notRun: [], hasFindings: false, failed, met: [], acceptable: [] };
    }
  }

  #told(file: CheckedFile): Inspected {
    const { failOn, accepted: entries } = this.#setup;
    const { accepted, met } = matchAccepted(file, entries);
    const counting = file.findings.filter(({ severity, deviated }) => !deviated && atLeast(severity, failOn));
    return {
      path: file.document.path,
      pieces: this.#reports.map((report) => report.file(file, accepted)),
      summary: withFile(NOTHING, file, accepted),
      notRun: [...file.statuses].flatMap(([check, status]) =>
        status.status === 'not_run' ? [[check, status.missing] as const] : [],
      ),
      hasFindings: counting.some((finding) => isOpen(finding, accepted)),
      failed: file.findings.some(({ check }) => check === INTERNAL),
      met,
      acceptable: [...counting.map(entryOf), ...entries.filter((entry) => isUnsettled(entry, file))],
    };
  }

  /** Facts of another installation, read when somebody is found to share something with it. */
  #factsOf(path: string): WellFacts | undefined {
    if (this.#facts.has(path)) return this.#facts.get(path);
    if (this.#facts.size >= MOST_FACTS) this.#facts.clear();
    const reading = readTextFile(path);
    const facts = 'text' in reading ? wellFactsOf(readDocument(path, reading.text)) : undefined;
    this.#facts.set(path, facts);
    return facts;
  }
}

/** Whether nothing can be said of an entry: its check was not run. */
function isUnsettled({ path, check }: AcceptedEntry, { document, statuses }: CheckedFile): boolean {
  return path === document.path && statuses.get(check)?.status === 'not_run';
}

function surveyOf(change: Change, held: Repository): Survey {
  const { path } = change;
  const known = held.known(path);
  const facts = held.factsOf(path);
  return {
    path,
    standing: known?.state === 'read' ? standingOf(known.document) : 'unread',
    keys: facts === undefined ? undefined : keysOf(facts),
    references: known?.state === 'read' ? known.references.map((each) => each.path) : [],
    policies: held.policyPaths(path),
    troubles: troubleIn(change),
  };
}

const UNREADABLE = new Set(['document.not-text', 'document.too-large']);

/** A file that cannot be read is not called someone else's: what stands in it cannot be told. */
function standingOf({ ours, path, problems }: Document): Survey['standing'] {
  if (ours) return 'ours';
  const isBroken = problems.some(({ check }) => UNREADABLE.has(check)) || (problems.length > 0 && mayBeDocument(path));
  return isBroken ? 'broken' : 'stranger';
}

import type { CheckedFile } from './check-document.ts';
import { CATALOGUE } from './checks/catalogue.ts';
import { DEVIATION_NOT_NEEDED } from './checks/deviation/texts.ts';
import { type Deviation, isApproved, isCurrent, readDeviations } from './findings/deviations.ts';
import { NONE } from './syntax/tree.ts';

export type DeviationState = 'in force' | 'not needed' | 'expired' | 'not approved' | 'of no known check';

/** A deviation of one installation, as its author wrote it, with what becomes of it. */
export interface ListedDeviation {
  readonly path: string;
  /** Name of the well; empty where the file has none. */
  readonly well: string;
  /** `deviations[2]`. */
  readonly key: string;
  readonly check: string;
  /** Entry that it is about; empty for all of that check. */
  readonly at: string;
  /** Case that it is about; empty for all. */
  readonly case: string;
  /** Value that is accepted, as written; empty where any is. */
  readonly upTo: string;
  readonly reason: string;
  readonly approvedBy: string;
  /** Last day. */
  readonly until: string;
  readonly state: DeviationState;
}

const KNOWN: ReadonlySet<string> = new Set(CATALOGUE.map(({ id }) => id));

/**
 * All deviations of a fleet, in the order of the files and then as they are written; other documents have none.
 * @param today day on which they are looked at, `2026-03-14`: the last day itself still counts
 */
export function deviationsOf(files: readonly CheckedFile[], today: string): readonly ListedDeviation[] {
  return files.filter(({ document }) => document.kind === 'installation').flatMap((file) => listed(file, today));
}

function listed(file: CheckedFile, today: string): readonly ListedDeviation[] {
  const { tree, path } = file.document;
  const well = tree.find('site.well');
  return readDeviations(file.document).map((deviation, index) => {
    const upTo = tree.child(deviation.node, 'up_to');
    const key = `deviations[${index}]`;
    return {
      path,
      key,
      well: well === NONE ? '' : tree.scalar(well).trim(),
      check: deviation.check,
      at: deviation.key ?? '',
      case: deviation.case ?? '',
      upTo: upTo === NONE ? '' : tree.scalar(upTo).trim(),
      reason: deviation.reason,
      approvedBy: deviation.approvedBy,
      until: deviation.until,
      state: stateOf(deviation, key, file, today),
    };
  });
}

function stateOf(deviation: Deviation, key: string, { findings }: CheckedFile, today: string): DeviationState {
  if (!KNOWN.has(deviation.check)) return 'of no known check';
  if (!isApproved(deviation)) return 'not approved';
  if (!isCurrent(deviation, today)) return 'expired';
  const isIdle = findings.some((finding) => finding.check === DEVIATION_NOT_NEEDED.id && finding.key === key);
  return isIdle ? 'not needed' : 'in force';
}

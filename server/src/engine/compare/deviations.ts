import type { CheckedFile } from '../check-document.ts';
import { type Deviation, readDeviations } from '../findings/deviations.ts';
import { titleOfCheck } from './checks.ts';

/** A deviation that came, went, was changed or ran out. */
export interface DeviationChange {
  readonly change: 'added' | 'removed' | 'changed' | 'expired';
  readonly check: string;
  readonly title: string;
  readonly key: string | undefined;
  readonly case: string | undefined;
  readonly before: DeviationSide | undefined;
  readonly after: DeviationSide | undefined;
  /** Whether it has run out on the day of the check. */
  readonly isExpired: boolean;
}

export interface DeviationSide {
  readonly reason: string;
  readonly approvedBy: string;
  readonly until: string;
  /** What is accepted at most, as written. */
  readonly upTo: string | undefined;
}

/** The deviations that differ, and those that have run out, in the order of the later file, then those removed. */
export function compareDeviations(before: CheckedFile, after: CheckedFile): readonly DeviationChange[] {
  const old = new Map(deviationsOf(before).map((each) => [identityOf(each), each]));
  const changes = deviationsOf(after).flatMap((now) => {
    const was = old.get(identityOf(now));
    old.delete(identityOf(now));
    const isExpired = hasExpired(after, now);
    const change = was === undefined ? 'added' : isSame(before, was, after, now) ? 'expired' : 'changed';
    if (change === 'expired' && !isExpired) return [];
    return [
      { ...nameOf(now), change, isExpired, before: was && sideOf(before, was), after: sideOf(after, now) } as const,
    ];
  });
  const gone = [...old.values()].map((was) => {
    return {
      ...nameOf(was),
      change: 'removed',
      isExpired: false,
      before: sideOf(before, was),
      after: undefined,
    } as const;
  });
  return [...changes, ...gone];
}

/** All deviations of a file that is new. */
export function allDeviations(file: CheckedFile): readonly DeviationChange[] {
  return deviationsOf(file).map((now) => {
    return {
      ...nameOf(now),
      change: 'added',
      isExpired: hasExpired(file, now),
      before: undefined,
      after: sideOf(file, now),
    };
  });
}

function deviationsOf({ document }: CheckedFile): readonly Deviation[] {
  return document.kind === 'installation' ? readDeviations(document) : [];
}

function identityOf({ check, key, case: name }: Deviation): string {
  return [check, key ?? '', name ?? ''].join('\n');
}

function nameOf({ check, key, case: name }: Deviation) {
  return { check, title: titleOfCheck(check), key, case: name };
}

/** The check of deviations knows the day; here there is no clock. */
function hasExpired({ document, findings }: CheckedFile, { node }: Deviation): boolean {
  const own = `${document.tree.path(node)}.`;
  return findings.some(({ check, key }) => check === 'deviation.expired' && key.startsWith(own));
}

function isSame(before: CheckedFile, was: Deviation, after: CheckedFile, now: Deviation): boolean {
  const [one, other] = [sideOf(before, was), sideOf(after, now)];
  return (
    one.reason === other.reason &&
    one.approvedBy === other.approvedBy &&
    one.until === other.until &&
    one.upTo === other.upTo
  );
}

function sideOf(
  { document: { tree } }: CheckedFile,
  { node, reason, approvedBy, until, upTo }: Deviation,
): DeviationSide {
  return {
    reason,
    approvedBy,
    until,
    upTo: upTo === undefined ? undefined : tree.scalar(tree.child(node, 'up_to')).trim(),
  };
}

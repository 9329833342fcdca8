import { type Accepted, type Deviation, isAbout } from '../../findings/deviations.ts';
import type { Measure } from '../../findings/finding.ts';
import type { RawFinding } from '../../findings/raw.ts';
import { fromUnit } from '../../quantity/convert.ts';
import { KINDS } from '../../quantity/kinds.ts';

/** Whether a deviation accepts a finding: it is about it, and the finding is not worse than accepted. */
export function accepts(deviation: Deviation, finding: RawFinding): boolean {
  const { upTo } = deviation;
  return isAbout(deviation, finding) && (upTo === undefined || notWorse(upTo, finding.value, finding.limit));
}

/** What cannot be compared stays open, the safe side. */
function notWorse(upTo: Accepted, value: Measure | undefined, limit: Measure | undefined): boolean {
  if (value === undefined || limit === undefined) return false;
  const number = comparable(value, upTo);
  if (number === undefined) return false;
  const rounding = 1e-9 * Math.abs(upTo.value);
  return value.number >= limit.number ? number <= upTo.value + rounding : number >= upTo.value - rounding;
}

/** A value of a finding in SI, if it is of the kind that was accepted. */
function comparable({ number, unit }: Measure, upTo: Accepted): number | undefined {
  const [, bare = unit, mark] = /^(.*?)\(([ga])\)$/.exec(unit) ?? [];
  if (mark !== undefined && upTo.reference?.startsWith(mark) !== true) return undefined;
  return isSameKind(bare, upTo.unit) ? fromUnit(number, KINDS.any, bare) : undefined;
}

/** Whether two units measure the same: what fits the kinds that the one fits also fits those of the other. */
function isSameKind(a: string, b: string): boolean {
  if (a === b) return true;
  return Object.values(KINDS).some(
    (kind) => kind !== KINDS.any && fromUnit(1, kind, a) !== undefined && fromUnit(1, kind, b) !== undefined,
  );
}

import { type BoundReading, CheckContext, type Evaluation, insideBy, type WindowReading } from '../../engine/index.ts';
import type { PictureWidth } from '../svg/drawing.ts';
import { windowRuler } from '../svg/ruler.ts';

/** A setpoint's window, its numbers in the author's units. */
export interface WindowSheet {
  readonly setpoint: string;
  readonly title: string;
  readonly set: string | undefined;
  /** What keeps the setpoint from being known. */
  readonly missing: readonly string[];
  readonly recommended: string | undefined;
  readonly rule: string | undefined;
  readonly bounds: readonly BoundRow[];
  readonly ruler: string | undefined;
}

export interface BoundRow {
  readonly id: string;
  readonly side: 'at least' | 'at most';
  readonly weight: 'hard' | 'soft';
  readonly name: string;
  readonly consequence: string;
  readonly source: string;
  readonly shown: string | undefined;
  /** How far the setpoint is inside it; begins with a minus beyond it. */
  readonly margin: string | undefined;
  readonly case: string | undefined;
  /** Ends of toleranced entries at which it was taken. */
  readonly corner: string | undefined;
  /** What keeps it from being known in every case. */
  readonly missing: readonly string[];
}

/** What a window says, bounds in the order of their numbers; those that do not concern the installation left out. */
export function windowSheet(evaluation: Evaluation, reading: WindowReading, width: PictureWidth): WindowSheet {
  const { window, setpoint, recommended, bounds, missing } = reading;
  const context = new CheckContext(evaluation, 0, '');
  const show = (number: number) => context.show(number, window.kind, window.setpoint);
  const concerned = bounds.filter(({ status }) => status !== 'not-applicable');
  const known = concerned.some(({ number }) => Number.isFinite(number));
  return {
    setpoint: window.setpoint,
    title: window.title,
    set: setpoint === undefined ? undefined : show(setpoint),
    missing,
    recommended:
      recommended === undefined ? undefined : (window.choice?.(evaluation, recommended)?.words ?? show(recommended)),
    rule: window.recommendation?.rule,
    bounds: [...concerned].sort(highestFirst).map((each) => boundRow(evaluation, reading, each)),
    ruler: known ? windowRuler(evaluation, reading, width) : undefined,
  };
}

/** As on the ruler; what has no number comes last. */
function highestFirst(a: BoundReading, b: BoundReading): number {
  return (Number.isNaN(b.number) ? 0 : 1) - (Number.isNaN(a.number) ? 0 : 1) || b.number - a.number || 0;
}

function boundRow(evaluation: Evaluation, { window, setpoint }: WindowReading, reading: BoundReading): BoundRow {
  const { bound, number, caseIndex, corner, missing } = reading;
  const context = new CheckContext(evaluation, 0, '');
  const isKnown = Number.isFinite(number);
  const apart = (by: number) => context.showDifference(by, window.kind, window.setpoint);
  return {
    id: bound.id,
    side: bound.side === 'lower' ? 'at least' : 'at most',
    weight: bound.hard ? 'hard' : 'soft',
    name: bound.limitName,
    consequence: bound.consequence,
    source: bound.check.source,
    shown: isKnown ? context.show(number, window.kind, window.setpoint) : undefined,
    margin: isKnown && setpoint !== undefined ? apart(insideBy(reading, setpoint)) : undefined,
    case: caseIndex === undefined ? undefined : evaluation.caseName(caseIndex),
    corner: corner.length === 0 ? undefined : corner.map(({ key, end }) => `${key} at its ${end} end`).join(', '),
    missing,
  };
}

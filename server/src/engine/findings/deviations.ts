import type { Document } from '../format/document.ts';
import { NONE, type NodeIndex } from '../syntax/tree.ts';
import type { RawFinding } from './raw.ts';

/** A finding that somebody accepts, for a reason, until a day. */
export interface Deviation {
  readonly node: NodeIndex;
  readonly check: string;
  readonly key: string | undefined;
  readonly case: string | undefined;
  /** Worse than this reopens the finding. */
  readonly upTo: Accepted | undefined;
  readonly reason: string;
  readonly approvedBy: string;
  readonly until: string;
}

/** A value that is accepted, in SI; a pressure with what it is measured from. */
export interface Accepted {
  readonly value: number;
  /** Unit as written; that of a value which can be compared has the same dimension. */
  readonly unit: string;
  readonly reference: string | undefined;
}

export function readDeviations(document: Document): readonly Deviation[] {
  const { tree, quantities } = document;
  return [...tree.children(tree.find('deviations'))].map((node) => {
    const text = (key: string) => {
      const at = tree.child(node, key);
      return at === NONE || tree.isAbsent(at) ? undefined : tree.scalar(at).trim();
    };
    const upTo = tree.child(node, 'up_to');
    return {
      node,
      check: text('check') ?? '',
      key: text('key'),
      case: text('case'),
      upTo: upTo === NONE ? undefined : acceptedOf(document, quantities[upTo]),
      reason: text('reason') ?? '',
      approvedBy: text('approved_by') ?? '',
      until: text('until') ?? '',
    };
  });
}

/** What an unreadable `up_to` accepts: nothing, so that the finding stays open. */
const NOTHING: Accepted = { value: Number.NaN, unit: '', reference: undefined };

function acceptedOf({ tree }: Document, quantity: Document['quantities'][number]): Accepted {
  if (quantity === undefined) return NOTHING;
  const isAbsolute = tree.scalar(tree.find('conventions.pressure')) === 'absolute';
  const reference = quantity.reference ?? (isAbsolute ? 'absolute' : 'gauge');
  return { value: quantity.value, unit: quantity.unit, reference };
}

/** Whether a deviation is in force: approved, reasoned and not expired on that day. */
export function inForce(deviation: Deviation, today: string): boolean {
  return isApproved(deviation) && isCurrent(deviation, today);
}

export function isApproved({ reason, approvedBy }: Deviation): boolean {
  return reason !== '' && approvedBy !== '';
}

/** The day itself still counts. */
export function isCurrent({ until }: Deviation, today: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(until) && until >= today;
}

/** Whether a deviation is about a finding: same check, and key and case where it names them. */
export function isAbout(deviation: Deviation, finding: RawFinding): boolean {
  if (deviation.check !== finding.check) return false;
  if (deviation.key !== undefined && deviation.key !== finding.place.key) return false;
  return deviation.case === undefined || deviation.case === finding.case;
}

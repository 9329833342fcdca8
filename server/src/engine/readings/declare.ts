import type { Check } from '../checks/declare.ts';
import type { Fix, Measure, Severity } from '../findings/finding.ts';
import type { Visit } from './visit.ts';

/** What is found at one place of a visit. */
export interface VisitFinding {
  /** Dotted key in the readings; for an absent entry where it should be. */
  readonly at: string;
  readonly message: string;
  /** Only where it is less than the check's own. */
  readonly severity?: Severity | undefined;
  readonly value?: Measure | undefined;
  readonly limit?: Measure | undefined;
  /** Entry of the installation that it rests on. */
  readonly planned?: string | undefined;
  readonly fixes?: readonly Fix[] | undefined;
}

/** A check of a visit beside the checklist of its installation. */
export interface VisitCheck {
  readonly check: Check;
  readonly judge: (visit: Visit) => readonly VisitFinding[];
  /** Entries or items without which it cannot be made, or not everywhere. */
  readonly lacks?: (visit: Visit) => readonly string[];
}

import type { Severity } from '../findings/finding.ts';
import { atLeast } from '../findings/gate.ts';
import type { RawFinding } from '../findings/raw.ts';
import type { Document } from '../format/document.ts';
import type { NodeIndex } from '../syntax/tree.ts';
import type { Outcome } from './outcome.ts';
import { type Hypothesis, hypothesesOn } from './slips.ts';

/** A check that says of entries that they can hardly be right: of the one that it stands at, unless others are named. */
interface Suspicion {
  readonly check: string;
  readonly entries?: readonly string[];
  /** Only where value and limit are this far apart: less is a design that does not fit, more is a slip. */
  readonly factor?: number;
}

const STROKE = [
  'operation.stroke.rate',
  'operation.stroke.length',
  'operation.stroke.up_fraction',
  'operation.frequency',
];

/** Those first on whose entries most others rest. */
const SUSPICIONS: readonly Suspicion[] = [
  { check: 'units.implausible' },
  { check: 'units.fraction-for-percent' },
  { check: 'well.tvd-exceeds-md' },
  { check: 'well.survey-order' },
  { check: 'well.survey-disagrees' },
  { check: 'well.tubing-in-casing' },
  { check: 'fluid.densities-inverted' },
  { check: 'reservoir.pressure-gradient' },
  { check: 'reservoir.temperature-gradient' },
  { check: 'well.hotter-at-the-top' },
  { check: 'inflow.test-above-reservoir' },
  { check: 'inflow.test-and-index-disagree' },
  {
    check: 'inflow.target-above-maximum',
    entries: ['operation.target_rate', 'reservoir.productivity_index', 'reservoir.test.rate'],
    factor: 3,
  },
  { check: 'drive.input-mismatch', entries: ['supply.voltage'] },
  { check: 'drive.supply-frequency', entries: ['supply.frequency'] },
  { check: 'pump.cycle-inconsistent' },
  { check: 'motor.speed-and-frequency-disagree' },
  { check: 'pump.case-stroke-rate' },
  { check: 'pump.stroke-rate' },
  { check: 'pump.stroke-length' },
  { check: 'motor.stroke-speed', entries: STROKE },
  { check: 'motor.frequency', entries: STROKE },
  { check: 'wellhead-pressure.below-running', entries: ['well.wellhead.tubing_pressure'] },
  { check: 'pump.no-operating-point' },
  { check: 'drive.frequency-outside' },
  { check: 'pump.short-of-target', entries: [...STROKE, 'operation.target_rate'], factor: 3 },
  { check: 'cable.shorter-than-depth-in-feet' },
  { check: 'cable.much-too-long' },
  { check: 'cable.too-short' },
  { check: 'protection.order' },
];

/** A setpoint beyond its hard bounds is wrong wherever it is used, so those come last. An empty window accuses nobody. */
function isWrongSetpoint({ check, place, severity }: RawFinding): boolean {
  return severity === 'error' && place.key.startsWith('setpoints.') && check !== 'window.empty';
}

/** So many findings beside each other still have each a way out of their own; with more, the cause is looked for. */
const FEW = 2;
/** Each costs several runs of all checks. */
const MOST_TRIED = 3;

/** What the search for causes asks of the run whose findings it sorts. */
export interface Rerun {
  /** How the checks end with other quantities in the document. */
  readonly with: (quantities: Document['quantities']) => Outcome;
  /** Whether that run would make a finding of this check again: not what comes from reading, or from other files. */
  readonly makes: (check: string) => boolean;
  /** Whether a deviation accepts it: then it neither stands for others nor is named with another. */
  readonly isAccepted: (finding: RawFinding) => boolean;
  readonly severityOf: (finding: RawFinding) => Severity;
}

/** A wrong entry, by its finding, and how the checks end with the slip mended. */
export interface Root {
  readonly key: string;
  readonly check: string;
  readonly mended: Outcome;
}

/** A finding of entries that are likely wrong, before it is tried. */
interface Candidate {
  readonly finding: RawFinding;
  readonly nodes: readonly NodeIndex[];
  readonly rank: number;
}

/** What a slip explains. */
interface Explanation {
  readonly hypothesis: Hypothesis;
  readonly mended: Outcome;
  readonly following: readonly RawFinding[];
  /** How many findings it takes away, less those that it makes. */
  readonly score: number;
}

/**
 * Where one wrong entry makes many findings, names them with it, so that one slip is one finding. Whether a finding goes
 * back to the slip is tried: it does if it is made no more with the slip mended, by the usual slips of unit and decimal
 * point and by what the finding itself offers. The finding that is left is as severe as the worst that it stands for.
 */
export function linkToRoots(document: Document, outcome: Outcome, rerun: Rerun): readonly Root[] {
  const roots: Root[] = [];
  let tried = 0;
  for (const candidate of candidatesIn(document, outcome.findings)) {
    const { finding } = candidate;
    if (!outcome.findings.includes(finding) || !speaks(finding, rerun)) continue;
    if (++tried > MOST_TRIED) break;
    const found = explain(document, candidate, outcome, rerun);
    if (found === undefined) continue;
    const { hypothesis, mended, following } = found;
    outcome.nameWith(finding, following, { severityOf: rerun.severityOf, offer: hypothesis.offer });
    roots.push({ key: finding.place.key, check: finding.check, mended });
  }
  return roots;
}

/** The slip that explains most beside a finding, if it explains many; none that makes as many new ones. */
function explain(document: Document, candidate: Candidate, outcome: Outcome, rerun: Rerun): Explanation | undefined {
  const { finding, nodes } = candidate;
  const beside = crowdBeside(finding, outcome, rerun);
  if (beside.length <= FEW) return undefined;
  const unread = rerun.with(document.quantities.map((each, at) => (nodes.includes(at) ? undefined : each)));
  const resting = without(beside, unread);
  if (resting.length <= FEW) return undefined;
  let best: Explanation | undefined;
  for (const hypothesis of hypothesesOn(document, finding, nodes)) {
    const found = tryOut(document, hypothesis, { finding, resting, before: outcome }, rerun);
    if (found.score > (best?.score ?? 0)) best = found;
    if (found.score === resting.length) break;
  }
  return best !== undefined && best.following.length > FEW ? best : undefined;
}

/** How much a hypothesis explains of what rests on an entry. */
function tryOut(
  document: Document,
  hypothesis: Hypothesis,
  { finding, resting, before }: { finding: RawFinding; resting: readonly RawFinding[]; before: Outcome },
  rerun: Rerun,
): Explanation {
  const mended = rerun.with(document.quantities.map((each, at) => hypothesis.quantities.get(at) ?? each));
  // What cannot be run any more is no better for it.
  const following = without(resting, mended).filter(({ check }) => mended.statuses.get(check)?.status !== 'not_run');
  const isStill = rerun.makes(finding.check) && without([finding], mended).length === 0;
  const added = without(mended.findings, before).filter(({ severity }) => severity !== 'note');
  return { hypothesis, mended, following, score: isStill ? 0 : following.length - added.length };
}

/** Those that a run does not make. */
function without(findings: readonly RawFinding[], run: Outcome): readonly RawFinding[] {
  const made = new Set(run.findings.map(identity));
  return findings.filter((each) => !made.has(identity(each)));
}

/** What may go back to a finding. What else is said of the same entry is more precise, not a consequence. */
function crowdBeside(finding: RawFinding, { findings }: Outcome, { makes, isAccepted }: Rerun): readonly RawFinding[] {
  return findings.filter(
    (each) =>
      each.place.key !== finding.place.key && makes(each.check) && !isAccepted(each) && each.severity !== 'note',
  );
}

function candidatesIn(document: Document, findings: readonly RawFinding[]): readonly Candidate[] {
  const candidates = findings.flatMap((finding): Candidate[] => {
    const at = SUSPICIONS.findIndex((each) => isAbout(each, finding));
    if (finding.severity === 'note' || (at < 0 && !isWrongSetpoint(finding))) return [];
    const nodes = (SUSPICIONS[at]?.entries ?? [finding.place.key])
      .map((key) => document.tree.find(key))
      .filter((node) => document.quantities[node] !== undefined);
    return nodes.length === 0 ? [] : [{ finding, nodes, rank: at < 0 ? SUSPICIONS.length : at }];
  });
  return candidates.sort((a, b) => a.rank - b.rank || a.finding.place.span.start - b.finding.place.span.start);
}

function isAbout({ check, factor = 1 }: Suspicion, finding: RawFinding): boolean {
  return finding.check === check && (factor === 1 || (excessOf(finding) ?? 0) >= factor);
}

/** How many times its limit a value is, or the limit the value; undefined where the two cannot be compared so. */
function excessOf({ value, limit }: RawFinding): number | undefined {
  if (value === undefined || limit === undefined || value.unit !== limit.unit) return undefined;
  const ratio = value.number / limit.number;
  return ratio > 0 ? Math.max(ratio, 1 / ratio) : undefined;
}

function speaks(finding: RawFinding, { isAccepted, severityOf }: Rerun): boolean {
  return !isAccepted(finding) && atLeast(severityOf(finding), finding.severity);
}

function identity({ check, place }: RawFinding): string {
  return `${check} ${place.key}`;
}

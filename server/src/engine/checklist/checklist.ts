import type { CheckedFile } from '../check-document.ts';
import { withArticle } from '../text/words.ts';
import { DEFERRAL } from './cautions.ts';
import { Facts } from './facts.ts';
import type { UnitChoice } from './notation.ts';
import { type Overview, overviewOf } from './overview.ts';
import { withPolicySteps } from './policy-steps.ts';
import { beforeLeaving } from './stages/before-leaving.ts';
import { cover, errorBand } from './stages/cover.ts';
import { handover } from './stages/handover.ts';
import { inspection } from './stages/inspection.ts';
import { runningIn } from './stages/running-in.ts';
import { settings } from './stages/settings.ts';
import { start } from './stages/start.ts';
import { surface } from './stages/surface.ts';
import { STAGE_TITLES, type Stage, type StageId, type Step, withUniqueIds } from './step.ts';

/** The checklist of one installation as data. */
export interface Checklist {
  readonly setproof: 1;
  /** Path of the installation. */
  readonly installation: string;
  readonly fingerprint: string;
  readonly title: string;
  readonly well: string;
  readonly field: string | undefined;
  readonly pad: string | undefined;
  readonly revision: {
    readonly number: string | undefined;
    readonly date: string | undefined;
    readonly preparedBy: string | undefined;
    readonly checkedBy: string | undefined;
  };
  readonly units: UnitChoice;
  /** What stands across every page; undefined without open errors. */
  readonly band: string | undefined;
  readonly deferral: string;
  readonly overview: Overview;
  readonly stages: readonly Stage[];
}

export interface ChecklistOptions {
  readonly units: UnitChoice;
  /** How the installation's file is to be named; as the host names it unless told. */
  readonly path?: string;
}

/**
 * The checklist of a checked installation: eight stages with their steps, from the installation, its data sheets, its
 * values and windows, and the policy's own steps. The same file gives the same list, byte for byte.
 * @throws Error for a document that is no installation, or whose values could not be worked out
 */
export function buildChecklist(file: CheckedFile, { units, path = file.document.path }: ChecklistOptions): Checklist {
  const { worked, document } = file;
  const fingerprint = file.fingerprint();
  if (worked === undefined || fingerprint === undefined) {
    throw new Error(
      `There is no checklist for ${document.path}: it is ${withArticle(document.label)}, or its values could not be worked out.`,
    );
  }
  const facts = new Facts(file, worked, units);
  const overview = overviewOf(facts);
  const well = facts.text('site.well') ?? 'without a name';
  return {
    setproof: 1,
    installation: path,
    fingerprint,
    title: `Checklist for well ${well}`,
    well,
    field: facts.text('site.field'),
    pad: facts.text('site.pad'),
    revision: revisionOf(facts),
    units,
    band: overview.counts.errors > 0 ? errorBand(overview.counts.errors) : undefined,
    deferral: DEFERRAL,
    overview,
    stages: stagesOf(facts, overview),
  };
}

function revisionOf(facts: Facts): Checklist['revision'] {
  return {
    number: facts.text('revision.number'),
    date: facts.text('revision.date'),
    preparedBy: facts.text('revision.prepared_by'),
    checkedBy: facts.text('revision.checked_by'),
  };
}

function stagesOf(facts: Facts, overview: Overview): readonly Stage[] {
  const steps: Readonly<Record<StageId, readonly Step[]>> = {
    cover: cover(facts, overview),
    before_leaving: beforeLeaving(facts),
    inspection: inspection(facts),
    running_in: runningIn(facts),
    surface: surface(facts),
    settings: settings(facts),
    start: start(facts),
    handover: handover(facts, overview),
  };
  const stages = (Object.keys(STAGE_TITLES) as StageId[]).map((id) => ({
    id,
    title: STAGE_TITLES[id],
    steps: steps[id],
  }));
  return withUniqueIds(withPolicySteps(stages, facts.file.policy.document, facts.notation));
}

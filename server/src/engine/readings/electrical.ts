import {
  CURRENT_UNBALANCE,
  INSULATION,
  UNEXPECTED_RESISTANCE,
  VOLTAGE_UNBALANCE,
  WINDING_UNBALANCE,
} from '../checks/readings/electrical.ts';
import type { Measure } from '../findings/finding.ts';
import { formatNumber, percentText } from '../quantity/format.ts';
import { insulationAt40 } from '../values/readings/insulation.ts';
import { unbalance } from '../values/readings/unbalance.ts';
import type { VisitCheck, VisitFinding } from './declare.ts';
import {
  asWritten,
  at20,
  fieldOf,
  inUnit,
  isInsulation,
  isResistance,
  type MeasuredStep,
  measuredStep,
  measuredSteps,
  type Reading,
  temperatureAt,
  temperatureAtReceipt,
} from './readings.ts';
import type { Visit } from './visit.ts';

export const ELECTRICAL_CHECKS: readonly VisitCheck[] = [
  { check: WINDING_UNBALANCE, judge: eachOf(isResistance, windingUnbalance) },
  { check: UNEXPECTED_RESISTANCE, judge: eachOf(isResistance, unexpectedResistance) },
  { check: INSULATION, judge: eachOf(isInsulation, lowInsulation), lacks: temperaturesLacking },
  { check: CURRENT_UNBALANCE, judge: currentUnbalance },
  { check: VOLTAGE_UNBALANCE, judge: voltageUnbalance },
];

function eachOf(
  concerns: (each: MeasuredStep) => boolean,
  judge: (each: MeasuredStep, visit: Visit) => VisitFinding | undefined,
): VisitCheck['judge'] {
  return (visit) =>
    measuredSteps(visit)
      .filter(concerns)
      .flatMap((each) => judge(each, visit) ?? []);
}

const PHASES = 3;

function shareMeasure(share: number): Measure {
  return { number: Number(formatNumber(share * 100)), unit: '%' };
}

function windingUnbalance(measured: MeasuredStep): VisitFinding | undefined {
  const { step, row, readings } = measured;
  const most = step.unbalanceMax;
  const share = unbalance(readings.map(({ number }) => number));
  if (most === undefined || readings.length < PHASES || !(share > most)) return undefined;
  return {
    at: row.key,
    message: `'${step.id}' reads ${asWritten(readings)}: one is ${percentText(share)} of the mean away from the mean, at most ${percentText(most)} is due. Measure again with four wires; if it stays, look for a bad joint or shorted turns.`,
    value: shareMeasure(share),
    limit: shareMeasure(most),
  };
}

const AT_SURFACE = 'surface.cable.resistance';

/** The computed resistance in the step's unit: its own, or at the landed string the one that stands under “Surface”. */
function expectedAt({ step }: MeasuredStep, visit: Visit): number | undefined {
  if (step.id !== 'running_in.resistance.landed') return step.expected;
  const surface = visit.steps.get(AT_SURFACE)?.step;
  return surface?.unit === step.unit ? surface.expected : undefined;
}

/** Judged by the mean of what was read: that they differ among each other is another mistake. */
function unexpectedResistance(measured: MeasuredStep, visit: Visit): VisitFinding | undefined {
  const { step, row, readings } = measured;
  const expected = expectedAt(measured, visit);
  if (expected === undefined || readings.length === 0) return undefined;
  const temperature = temperatureAtReceipt(visit, measured);
  const mean = readings.reduce((sum, { number }) => sum + at20(number, temperature), 0) / readings.length;
  const [off, most] = [mean / expected - 1, visit.facts.evaluation.limit('readings.unexpected-resistance')];
  if (!(Math.abs(off) > most)) return undefined;
  const brought = temperature === undefined ? '' : ' at 20 degC';
  return {
    at: row.key,
    message: `'${step.id}' reads ${asWritten(readings)}, in the mean ${inUnit(measured, mean)}${brought}: ${percentText(Math.abs(off))} ${off > 0 ? 'more' : 'less'} than the ${inUnit(measured, expected)} that are computed, at most ${percentText(most)} is usual. Compare motor, cable and lengths with the file, and look for a bad joint.`,
    value: { number: mean, unit: step.unit },
    limit: { number: expected, unit: step.unit },
  };
}

/** Beyond this much of correction the rule is a guide only (IEEE 43, from memory), K. */
const RULE_HOLDS_FOR = 20;
const REFERENCE = 40;

/** As read, and a motor's also as it would be at 40 degC: at which temperature the sheet's limit holds is seldom said. */
function lowInsulation(measured: MeasuredStep, visit: Visit): VisitFinding | undefined {
  const { step, readings } = measured;
  const min = step.limit?.min;
  const [lowest] = [...readings].sort((a, b) => a.number - b.number);
  if (typeof min !== 'number' || lowest === undefined) return undefined;
  const temperature = step.temperatureStep === undefined ? undefined : temperatureAt(visit, step.temperatureStep);
  const corrected = temperature === undefined ? lowest.number : insulationAt40(lowest.number, temperature);
  if (lowest.number >= min && !(corrected < min)) return undefined;
  const isGuide = temperature !== undefined && Math.abs(temperature - REFERENCE) > RULE_HOLDS_FOR;
  const brought =
    temperature === undefined
      ? ''
      : `, which is ${inUnit(measured, corrected)} at 40 degC (read at ${formatNumber(temperature)} degC${isGuide ? '; so far from 40 degC the rule is a guide only' : ''})`;
  return {
    at: lowest.entry.key,
    severity: lowest.number >= min && isGuide ? 'warning' : undefined,
    message: `'${step.id}' reads ${lowest.entry.text}${fieldOf(measured, lowest)}${brought}; at least ${inUnit(measured, min)} is due. Clean and dry the ends, discharge, and measure again; if it stays low, do not run it.`,
    value: { number: lowest.number, unit: step.unit },
    limit: { number: min, unit: step.unit },
  };
}

/** A motor's insulation says half of it without its temperature. */
function temperaturesLacking(visit: Visit): readonly string[] {
  return measuredSteps(visit).flatMap(({ step: { temperatureStep }, readings }) =>
    temperatureStep === undefined || readings.length === 0 || temperatureAt(visit, temperatureStep) !== undefined
      ? []
      : [temperatureStep],
  );
}

const CURRENTS = ['start.log.current_a', 'start.log.current_b', 'start.log.current_c'];

/** The worst time of the log at which all three were read. */
function currentUnbalance(visit: Visit): readonly VisitFinding[] {
  const phases = CURRENTS.flatMap((id) => measuredStep(visit.row(id)) ?? []);
  const [first] = phases;
  if (first === undefined || phases.length < PHASES) return [];
  const most = visit.facts.evaluation.limit('current-unbalance.high');
  const [worst] = first.readings
    .flatMap((reading) => unbalanceAt(phases, reading.entry.index) ?? [])
    .sort((a, b) => b.share - a.share);
  if (worst === undefined || worst.share <= most) return [];
  const when = first.step.fields?.[worst.index] ?? 'one time';
  const message = `At '${when}' the currents read ${asWritten(worst.readings)}: one is ${percentText(worst.share)} of the mean away from the mean, more than ${percentText(most)}. Roll the phases at the wellhead and read again.`;
  return [{ at: first.row.key, message, value: shareMeasure(worst.share), limit: shareMeasure(most) }];
}

interface UnbalanceAt {
  readonly index: number;
  readonly readings: readonly Reading[];
  readonly share: number;
}

function unbalanceAt(phases: readonly MeasuredStep[], index: number): UnbalanceAt | undefined {
  const readings = phases.flatMap((each) => each.readings.find(({ entry }) => entry.index === index) ?? []);
  if (readings.length < phases.length) return undefined;
  const share = unbalance(readings.map(({ number }) => number));
  return Number.isNaN(share) ? undefined : { index, readings, share };
}

function voltageUnbalance(visit: Visit): readonly VisitFinding[] {
  const supply = measuredStep(visit.row('surface.supply.voltage'));
  if (supply === undefined || supply.readings.length < PHASES) return [];
  const share = unbalance(supply.readings.map(({ number }) => number));
  const most = visit.facts.evaluation.limit('voltage-unbalance.high');
  if (!(share > most)) return [];
  const message = `The supply reads ${asWritten(supply.readings)}: one is ${percentText(share)} of the mean away from the mean, more than ${percentText(most)}. Ask the supplier, and do not start before it is found.`;
  return [{ at: supply.row.key, message, value: shareMeasure(share), limit: shareMeasure(most) }];
}

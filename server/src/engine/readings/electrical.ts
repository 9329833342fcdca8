import {
  brokenLimit,
  compared,
  gravest,
  isAbove,
  isInsulation,
  isPhaseResistance,
} from '../checklist/reading-limits.ts';
import type { Step } from '../checklist/step.ts';
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
  fieldOf,
  inUnit,
  type MeasuredStep,
  measuredStep,
  measuredSteps,
  OPEN_END,
  type Reading,
  temperatureOf,
} from './readings.ts';
import type { Visit } from './visit.ts';

export const ELECTRICAL_CHECKS: readonly VisitCheck[] = [
  { check: WINDING_UNBALANCE, judge: eachOf(isPhaseResistance, windingUnbalance) },
  { check: UNEXPECTED_RESISTANCE, judge: eachOf(isPhaseResistance, unexpectedResistance) },
  { check: INSULATION, judge: eachOf(isInsulation, lowInsulation), lacks: temperaturesLacking },
  { check: CURRENT_UNBALANCE, judge: currentUnbalance },
  { check: VOLTAGE_UNBALANCE, judge: voltageUnbalance },
];

function eachOf(
  concerns: (step: Step) => boolean,
  judge: (each: MeasuredStep, visit: Visit) => VisitFinding | undefined,
): VisitCheck['judge'] {
  return (visit) =>
    measuredSteps(visit)
      .filter(({ step }) => concerns(step))
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
  if (most === undefined || readings.length < PHASES || !isAbove(share, most)) return undefined;
  return {
    at: row.key,
    message: `'${step.id}' reads ${asWritten(readings)}: one is ${percentText(share)} away from their mean, at most ${percentText(most)} is due. Measure again with four wires; if it stays, look for a bad joint or shorted turns.`,
    value: shareMeasure(share),
    limit: shareMeasure(most),
  };
}

/** Judged by the mean of what was read: that they differ among each other is another mistake. */
function unexpectedResistance(measured: MeasuredStep, visit: Visit): VisitFinding | undefined {
  const { step, row, readings } = measured;
  const temperature = temperatureOf(visit, measured);
  const { expected } = step;
  const [mean] = compared(step, readings, temperature);
  if (expected === undefined || mean === undefined) return undefined;
  const broken = brokenLimit(step.limit, mean);
  if (broken === undefined) return undefined;
  const [off, most] = [mean.number / expected - 1, visit.facts.evaluation.limit('readings.unexpected-resistance')];
  const brought = temperature === undefined ? '' : ' at 20 degC';
  const way = broken.isSure ? 'Compare motor, cable and lengths with the file, and look for a bad joint.' : OPEN_END;
  return {
    at: row.key,
    message: `'${step.id}' reads ${asWritten(readings)}, in the mean ${inUnit(measured, mean.number)}${brought}: ${percentText(Math.abs(off))} ${off > 0 ? 'more' : 'less'} than the ${inUnit(measured, expected)} that are computed, at most ${percentText(most)} is usual. ${way}`,
    value: { number: mean.number, unit: step.unit },
    limit: { number: expected, unit: step.unit },
  };
}

/** Beyond this much of correction the rule is a guide only (IEEE 43, from memory), K. */
const RULE_HOLDS_FOR = 20;
const REFERENCE = 40;

/** As read, and a motor's also as it would be at 40 degC: at which temperature the sheet's limit holds is seldom said. */
function lowInsulation(measured: MeasuredStep, visit: Visit): VisitFinding | undefined {
  const { step, readings } = measured;
  const { min } = step.limit ?? {};
  const temperature = temperatureOf(visit, measured);
  const worst = gravest(lowIn(readings, min, temperature));
  if (worst === undefined) return undefined;
  const { reading, at40, isAsRead } = worst;
  const isGuide = temperature !== undefined && Math.abs(temperature - REFERENCE) > RULE_HOLDS_FOR;
  const brought =
    temperature === undefined
      ? ''
      : `, which is ${inUnit(measured, at40)} at 40 degC (read at ${formatNumber(temperature)} degC${isGuide ? '; so far from 40 degC the rule is a guide only' : ''})`;
  return {
    at: reading.entry.key,
    severity: worst.isSure && (isAsRead || !isGuide) ? undefined : 'warning',
    message: `'${step.id}' reads ${reading.entry.text}${fieldOf(measured, reading)}${brought}; at least ${inUnit(measured, worst.limit)} is due. ${worst.isSure ? DRY_AND_REPEAT : OPEN_END}`,
    value: { number: reading.number, unit: step.unit },
    limit: { number: worst.limit, unit: step.unit },
  };
}

const DRY_AND_REPEAT = 'Clean and dry the ends, discharge, and measure again; if it stays low, do not run it.';

/** Readings that are too low as they are or would be at 40 degC, the lowest first. */
function lowIn(readings: readonly Reading[], min: number | string | undefined, temperature: number | undefined) {
  return [...readings]
    .sort((a, b) => a.number - b.number)
    .flatMap((reading) => {
      const at40 = temperature === undefined ? reading.number : insulationAt40(reading.number, temperature);
      const asRead = brokenLimit({ min }, reading);
      const found = gravest(
        [asRead, brokenLimit({ min }, { ...reading, number: at40 })].filter((each) => each !== undefined),
      );
      return found === undefined ? [] : [{ ...found, reading, at40, isAsRead: asRead?.isSure === true }];
    });
}

/** A motor's insulation says half of it without its temperature. */
function temperaturesLacking(visit: Visit): readonly string[] {
  return measuredSteps(visit).flatMap((measured) => {
    const { temperatureStep } = measured.step;
    const isLacking = isInsulation(measured.step) && temperatureOf(visit, measured) === undefined;
    return temperatureStep === undefined || measured.readings.length === 0 || !isLacking ? [] : [temperatureStep];
  });
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
  if (worst === undefined || !isAbove(worst.share, most)) return [];
  const when = first.step.fields?.[worst.index] ?? 'one time';
  const message = `At '${when}' the currents read ${asWritten(worst.readings)}: one is ${percentText(worst.share)} away from their mean, more than ${percentText(most)}. Roll the phases at the wellhead and read again.`;
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
  if (!isAbove(share, most)) return [];
  const message = `The supply reads ${asWritten(supply.readings)}: one is ${percentText(share)} away from their mean, more than ${percentText(most)}. Ask the supplier, and do not start before it is found.`;
  return [{ at: supply.row.key, message, value: shareMeasure(share), limit: shareMeasure(most) }];
}

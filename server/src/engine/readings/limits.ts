import { brokenLimit, compared, gravest, isInsulation, isPhaseResistance } from '../checklist/reading-limits.ts';
import { OUT_OF_LIMIT, RUNNING_DIFFERS } from '../checks/readings/accepted.ts';
import { VALUE_UNREADABLE } from '../checks/readings/identity.ts';
import type { VisitCheck, VisitFinding } from './declare.ts';
import { fieldOf, inUnit, type MeasuredStep, measuredSteps, OPEN_END, temperatureOf } from './readings.ts';
import { type Row, saysYes, type Visit } from './visit.ts';

export const LIMIT_CHECKS: readonly VisitCheck[] = [
  { check: OUT_OF_LIMIT, judge: (visit) => outside(visit, (each) => !isExpectation(each), MEASURE_AGAIN) },
  { check: RUNNING_DIFFERS, judge: (visit) => outside(visit, isExpectation, ASK_THE_FILE) },
  { check: VALUE_UNREADABLE, judge: (visit) => [...unreadableNumbers(visit), ...unreadableTicks(visit)] },
];

const MEASURE_AGAIN = 'Measure again; if it stays, do not go on before the cause is known.';
const ASK_THE_FILE = 'Find out which entry of the file is not as in the well, and check the protections anew.';

/** What instruments should show at rest and in each case: computed, and so a question rather than a limit. */
function isExpectation({ step }: MeasuredStep): boolean {
  return /^start\.(case\.|intake_)/.test(step.id);
}

/** Steps whose limit is judged by a check of its own. */
function isJudgedElsewhere({ step }: MeasuredStep): boolean {
  return isInsulation(step) || (isPhaseResistance(step) && step.expected !== undefined);
}

function outside(visit: Visit, concerns: (each: MeasuredStep) => boolean, way: string): readonly VisitFinding[] {
  return measuredSteps(visit)
    .filter((each) => concerns(each) && !isJudgedElsewhere(each))
    .flatMap((each) => outsideIn(visit, each, way) ?? []);
}

/** Of several readings of one step the one that is farthest beyond is reported. */
function outsideIn(visit: Visit, measured: MeasuredStep, way: string): VisitFinding | undefined {
  const { step, readings } = measured;
  const temperature = temperatureOf(visit, measured);
  const broken = compared(step, readings, temperature).flatMap((reading) => {
    const found = brokenLimit(step.limit, reading);
    return found === undefined ? [] : [{ ...found, reading, by: Math.abs(found.limit - reading.number) }];
  });
  const worst = gravest([...broken].sort((a, b) => b.by - a.by));
  if (worst === undefined) return undefined;
  const { entry, number } = worst.reading;
  const inCase = step.case === undefined ? '' : ` in the case '${step.case}'`;
  const brought = temperature === undefined ? '' : `, ${inUnit(measured, number)} at 20 degC`;
  const side = worst.end === 'min' ? 'at least' : 'at most';
  const more = broken.length > 1 ? ` ${broken.length} of ${readings.length} readings are outside.` : '';
  return {
    at: entry.key,
    severity: worst.isSure || isExpectation(measured) ? undefined : 'warning',
    message: `'${step.id}' reads ${entry.text}${fieldOf(measured, worst.reading)}${inCase}${brought}; ${side} ${inUnit(measured, worst.limit)} is due.${more} ${worst.isSure ? way : OPEN_END}`,
    value: { number, unit: step.unit },
    limit: { number: worst.limit, unit: step.unit },
  };
}

/** One finding a row: the first text that cannot be read, as it was written. */
function unreadableNumbers(visit: Visit): readonly VisitFinding[] {
  return measuredSteps(visit).flatMap(({ step, unread }) => {
    const [first] = unread;
    if (first === undefined) return [];
    const message = `'${step.id}' says '${first.entry.text}', which is no reading in ${step.unit}. ${first.fault}`;
    return [{ at: first.entry.key, message }];
  });
}

function unreadableTicks(visit: Visit): readonly VisitFinding[] {
  return visit.rows.flatMap((row) => {
    const [entry] = row.entries;
    if (row.placed?.step.kind !== 'do' || entry === undefined || isTick(row)) return [];
    const message = `'${row.item}' is ticked or not, and '${entry.text}' is neither. Write yes or no, and what else there is to say as its note.`;
    return [{ at: entry.key, message }];
  });
}

function isTick(row: Row): boolean {
  return saysYes(row) || /^(no|false|off|not done|n\/?a|)$/i.test(row.entries[0]?.text ?? '');
}

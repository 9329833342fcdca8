import { formatNumber, percentText } from '../quantity/format.ts';
import { insulationAt40 } from '../values/readings/insulation.ts';
import { unbalance } from '../values/readings/unbalance.ts';
import {
  brokenLimit,
  compared,
  isAbove,
  isInsulation,
  isPhaseResistance,
  isSame,
  type NumberRead,
} from './reading-limits.ts';
import { readNumber } from './reading-number.ts';
import type { Step } from './step.ts';

/**
 * How the entries of a step compare with what it allows: `empty`, nothing entered; `noted`, no limit to compare with;
 * `inside`; `outside`, a limit is broken; `differs`, not what the file plans; `unsure`, an open end such as `> 100 Mohm`
 * that may lie on either side; `unreadable`, not a number with a fitting unit.
 */
export type Verdict = 'empty' | 'noted' | 'inside' | 'differs' | 'unsure' | 'unreadable' | 'outside';

export interface Judgement {
  readonly verdict: Verdict;
  /** In full sentences; empty where there is nothing to say. */
  readonly messages: readonly string[];
}

/** From the one that needs no attention to the one that needs it most. */
const ORDER: readonly Verdict[] = ['empty', 'noted', 'inside', 'differs', 'unsure', 'unreadable', 'outside'];

interface Finding {
  readonly verdict: Verdict;
  readonly message?: string;
}

/**
 * Judges the texts entered at a step that is read or set, one a field, as the checks of the readings do. With the
 * temperature of the item, degC, resistances between phases are brought to 20 degC; insulation is also brought to
 * 40 degC, and the worse of the two counts.
 */
export function judgeStep(step: Step, texts: readonly string[], temperature?: number): Judgement {
  const filled = texts.map((text) => text.trim()).filter((text) => text !== '');
  if (filled.length === 0) return { verdict: 'empty', messages: [] };
  const findings = step.unit === undefined ? [judgeText(step, filled)] : judgeNumbers(step, filled, temperature);
  const verdict = findings.map((each) => each.verdict).sort((a, b) => ORDER.indexOf(b) - ORDER.indexOf(a))[0];
  return { verdict: verdict ?? 'noted', messages: findings.flatMap(({ message }) => message ?? []) };
}

/** A serial number, a tap or a word of the format against the planned one; capitals and blanks do not matter. */
function judgeText({ planned, kind }: Step, [text = '']: readonly string[]): Finding {
  if (planned === undefined) return { verdict: 'noted' };
  if (alike(text) === alike(plannedText(planned))) return { verdict: 'inside' };
  const way = kind === 'set' ? 'Say why in the note.' : 'Find out which is right before going on.';
  return { verdict: 'differs', message: `The file has '${plannedText(planned)}'. ${way}` };
}

function plannedText(planned: string | number | boolean): string {
  return typeof planned === 'boolean' ? (planned ? 'yes' : 'no') : String(planned);
}

function alike(text: string): string {
  return text.toLowerCase().replace(/[\s_]+/g, '');
}

function judgeNumbers(step: Step, texts: readonly string[], temperature: number | undefined): readonly Finding[] {
  const unit = step.unit ?? '';
  const all = texts.map((text) => ({ text, ...readNumber(text, unit) }));
  const faults = all.flatMap(({ fault }): readonly Finding[] =>
    fault === undefined ? [] : [{ verdict: 'unreadable', message: fault }],
  );
  const readings = all.flatMap((each) => (each.number === undefined ? [] : [each]));
  return [
    ...faults,
    ...compared(step, readings, temperature).map((reading) => judgeNumber(step, reading, readings.length > 1)),
    ...judgeUnbalance(step, readings),
    ...readings.flatMap((reading) => judgeAt40(step, reading, temperature)),
  ];
}

/** What is compared may be brought to another temperature, or be a mean: then it is told beside what was typed. */
function judgeNumber(step: Step, reading: NumberRead & { readonly text: string }, isSeveral: boolean): Finding {
  const broken = brokenLimit(step.limit, reading);
  if (broken === undefined) return withinLimits(step, reading.number);
  const { end, isSure } = broken;
  const limit = `the ${end === 'min' ? 'least' : 'most'} allowed, ${withUnitOf(step, broken.limit)}`;
  const next = step.kind === 'set' ? NEXT.set : NEXT.read;
  const isMean = isSeveral && isPhaseResistance(step) && step.expected !== undefined;
  const what = `${isMean ? 'The mean, ' : ''}${withUnitOf(step, reading.number)}${isMean ? ',' : ''}`;
  if (isSure)
    return { verdict: 'outside', message: `${what} is ${end === 'min' ? 'below' : 'above'} ${limit}. ${next}` };
  return {
    verdict: 'unsure',
    message: `'${reading.text}' may lie on either side of ${limit}. Read again in another range of the instrument.`,
  };
}

const NEXT = { read: 'Find the cause before going on.', set: 'It is not left so without a change of the file.' };

function withinLimits(step: Step, number: number): Finding {
  const { limit, planned, kind } = step;
  const hasLimit = typeof limit?.min === 'number' || typeof limit?.max === 'number';
  if (kind !== 'set') return { verdict: hasLimit ? 'inside' : 'noted' };
  if (typeof planned !== 'number' || isSame(number, planned)) return { verdict: 'inside' };
  return { verdict: 'differs', message: `The file plans ${withUnitOf(step, planned)}. Say why in the note.` };
}

/** Several readings that should agree, once all of them are there. */
function judgeUnbalance(step: Step, readings: readonly NumberRead[]): readonly Finding[] {
  const { unbalanceMax, fields = [] } = step;
  if (unbalanceMax === undefined || readings.length < fields.length) return [];
  const share = unbalance(readings.map(({ number }) => number));
  if (Number.isNaN(share)) return [];
  const words = `The reading farthest from the mean is ${percentText(share)} from it; ${percentText(unbalanceMax)} is allowed.`;
  if (!isAbove(share, unbalanceMax)) return [{ verdict: 'inside', message: words }];
  return [
    {
      verdict: 'outside',
      message: `${words} ${isPhaseResistance(step) ? 'Clean the contacts and read again.' : NEXT.read}`,
    },
  ];
}

/** Kelvin of correction beyond which the rule is a guide only (IEEE 43, from memory). */
const FAR = 20;

/** Insulation brought to 40 degC. What the limit's own temperature is, sheets seldom say: the worse reading counts. */
function judgeAt40(step: Step, { number, beyond }: NumberRead, temperature: number | undefined): readonly Finding[] {
  if (temperature === undefined || step.temperatureStep === undefined || !isInsulation(step)) return [];
  const at40 = insulationAt40(number, temperature);
  if (Number.isNaN(at40)) return [];
  const { min } = step.limit ?? {};
  const broken = brokenLimit({ min }, { number: at40, beyond });
  const guide = Math.abs(40 - temperature) > FAR ? ' So far from 40 degC the correction is a guide only.' : '';
  const words = `Brought to 40 degC it is ${withUnitOf(step, at40)}`;
  if (broken === undefined) return [{ verdict: 'noted', message: `${words}.${guide}` }];
  const verdict = broken.isSure ? 'outside' : 'unsure';
  return [{ verdict, message: `${words}, below ${withUnitOf(step, broken.limit)}.${guide}` }];
}

function withUnitOf({ unit }: Step, number: number): string {
  return `${formatNumber(number)} ${unit ?? ''}`.trim();
}

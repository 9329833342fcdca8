import { formatNumber, percentText } from '../quantity/format.ts';
import { insulationAt40 } from '../values/readings/insulation.ts';
import { unbalance } from '../values/readings/unbalance.ts';
import { type ReadNumber, readNumber } from './reading-number.ts';
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
 * Judges the texts entered at a step that is read or set, one a field. With the temperature of the insulation, degC,
 * its reading is also brought to 40 degC, and the worse of the two counts.
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
  const readings = texts.map((text) => readNumber(text, unit));
  return [
    ...readings.map((reading, index) => judgeNumber(step, reading, texts[index] ?? '')),
    ...judgeUnbalance(step, readings),
    ...readings.flatMap((reading) => judgeAt40(step, reading, temperature)),
  ];
}

function judgeNumber(step: Step, reading: ReadNumber, text: string): Finding {
  if (reading.number === undefined) return { verdict: 'unreadable', message: reading.fault };
  const { min, max } = numericLimit(step);
  const { number, beyond } = reading;
  const least = min === undefined ? undefined : `the least allowed, ${withUnitOf(step, min)}`;
  const most = max === undefined ? undefined : `the most allowed, ${withUnitOf(step, max)}`;
  if (min !== undefined && number < min)
    return beyond === 'above' ? unsure(text, least) : outside(step, number, 'below', least);
  if (max !== undefined && number > max)
    return beyond === 'below' ? unsure(text, most) : outside(step, number, 'above', most);
  if (min !== undefined && beyond === 'below') return unsure(text, least);
  if (max !== undefined && beyond === 'above') return unsure(text, most);
  if (min !== undefined || max !== undefined || step.kind === 'set') return asPlanned(step, number);
  return { verdict: 'noted' };
}

function numericLimit({ limit }: Step): { readonly min: number | undefined; readonly max: number | undefined } {
  const end = (value: number | string | undefined) => (typeof value === 'number' ? value : undefined);
  return { min: end(limit?.min), max: end(limit?.max) };
}

const NEXT = { read: 'Find the cause before going on.', set: 'It is not left so without a change of the file.' };

function outside(step: Step, number: number, side: 'above' | 'below', limit: string | undefined): Finding {
  const next = step.kind === 'set' ? NEXT.set : NEXT.read;
  return { verdict: 'outside', message: `${withUnitOf(step, number)} is ${side} ${limit}. ${next}` };
}

function unsure(text: string, limit: string | undefined): Finding {
  return {
    verdict: 'unsure',
    message: `'${text}' may lie on either side of ${limit}. Read again in another range of the instrument.`,
  };
}

// Readings are compared after conversion, which rounds in the last bits.
const ROUNDING = 1e-9;

function asPlanned(step: Step, number: number): Finding {
  const { planned, kind } = step;
  if (kind !== 'set' || typeof planned !== 'number') return { verdict: 'inside' };
  if (Math.abs(number - planned) <= ROUNDING * Math.max(Math.abs(planned), 1)) return { verdict: 'inside' };
  return { verdict: 'differs', message: `The file plans ${withUnitOf(step, planned)}. Say why in the note.` };
}

/** Several readings that should agree, once all of them are there. */
function judgeUnbalance(step: Step, readings: readonly ReadNumber[]): readonly Finding[] {
  const { unbalanceMax, fields = [] } = step;
  const numbers = readings.flatMap(({ number }) => number ?? []);
  if (unbalanceMax === undefined || numbers.length < fields.length) return [];
  const share = unbalance(numbers);
  if (Number.isNaN(share)) return [];
  const words = `The reading farthest from the mean is ${percentText(share)} from it; ${percentText(unbalanceMax)} is allowed.`;
  if (share <= unbalanceMax) return [{ verdict: 'inside', message: words }];
  return [{ verdict: 'outside', message: `${words} Clean the contacts and read again.` }];
}

/** Kelvin of correction beyond which the rule is a guide only (IEEE 43, from memory). */
const FAR = 20;

/** Insulation brought to 40 degC. What the limit's own temperature is, sheets seldom say: the worse reading counts. */
function judgeAt40(step: Step, { number }: ReadNumber, temperature: number | undefined): readonly Finding[] {
  if (temperature === undefined || number === undefined || step.temperatureStep === undefined) return [];
  const at40 = insulationAt40(number, temperature);
  if (Number.isNaN(at40)) return [];
  const { min } = numericLimit(step);
  const guide = Math.abs(40 - temperature) > FAR ? ' So far from 40 degC the correction is a guide only.' : '';
  const words = `Brought to 40 degC it is ${withUnitOf(step, at40)}`;
  if (min === undefined || at40 >= min) return [{ verdict: 'noted', message: `${words}.${guide}` }];
  return [{ verdict: 'outside', message: `${words}, below ${withUnitOf(step, min)}.${guide}` }];
}

function withUnitOf({ unit }: Step, number: number): string {
  return `${formatNumber(number)} ${unit ?? ''}`.trim();
}

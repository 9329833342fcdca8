import type { Seen } from '../declare.ts';
import type { Evaluation } from '../evaluation.ts';
import { FEED, feed } from '../intake/pressures.ts';
import { systemHead } from '../lift/system.ts';
import { missingInputs } from '../missing.ts';
import { compileInputs } from '../network.ts';
import { pressureForRate, pumpHead, ratioAtRate } from './operating-point.ts';
import { ROTARY_PUMP, rotaryPump } from './rotary-inputs.ts';

/** The two lines whose crossing is the operating point of a case. Rates m3/s at intake conditions, heads m. */
export interface RotaryLines {
  /** Where the pump's curve ends. */
  readonly maxRate: number;
  readonly pumpHead: (rate: number) => number;
  /** NaN at rates that the well does not give. */
  readonly systemHead: (rate: number) => number;
}

/** The lines of a case for drawing them, or the entries that are missing. */
export function rotaryLines(
  evaluation: Evaluation,
  caseIndex: number,
): RotaryLines | { readonly missing: readonly string[] } {
  const flowing = evaluation.caseText(caseIndex, 'intake') === 'flowing';
  const inputs = compileInputs(flowing ? { ...ROTARY_PUMP, ...FEED } : ROTARY_PUMP, evaluation.network);
  const gathered = evaluation.gather(inputs, caseIndex);
  if (gathered === undefined) return { missing: missingInputs(evaluation, inputs, caseIndex) };
  const seen = gathered as Seen<typeof ROTARY_PUMP & typeof FEED>;
  const pump = rotaryPump(seen);
  const stated = evaluation.number('intake.pressure', caseIndex) ?? Number.NaN;
  const pressureAt = flowing ? (rate: number) => pressureForRate(feed(seen), rate) : () => stated;
  return {
    // A rounding error beyond the last point, the curve has no head.
    maxRate: pump.stage.maxRate(seen.noLoadRatio * (1 - seen.ratedSlip)) * (1 - 1e-9),
    pumpHead: (rate) => pumpHead(pump, rate, ratioAtRate(pump, rate)),
    systemHead: (rate) => systemHead(pump.system, rate, pressureAt(rate)),
  };
}

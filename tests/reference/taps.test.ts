import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Evaluation } from '../../server/src/engine/index.ts';
import { checked, openProject, SAMPLES } from '../support/project.ts';

// Needs of a tap, put back into the circuit by hand with complex numbers: at that very tap the transformer's emf,
// brought to the primary, must be just what supply and filter leave.

interface Plate {
  readonly power: number;
  readonly impedance: number;
  readonly loss: number;
  readonly frequency: number;
}

/** Emf at a tap for a load of so many volts and amperes, V line to line. */
function emf(evaluation: Evaluation, at: number, tap: number, plate: Plate, sag = 1): number {
  const value = (id: string) => evaluation.number(id, at) ?? Number.NaN;
  const base = tap ** 2 / plate.power;
  const resistive = plate.loss / plate.power;
  const r = value('cable.resistance') + resistive * base;
  const x =
    value('cable.reactance') +
    (Math.sqrt(plate.impedance ** 2 - resistive ** 2) * base * value('motor.frequency')) / plate.frequency;
  const factor = value('motor.power_factor');
  const current = (Math.sqrt(3) * value('motor.current')) / sag;
  const sine = Math.sqrt(1 - factor ** 2);
  return Math.hypot(
    sag * value('motor.voltage') + current * (factor * r + sine * x),
    current * (factor * x - sine * r),
  );
}

function evaluationOf(well: string): Evaluation {
  const path = join(SAMPLES, well);
  const worked = checked(openProject(path), path).worked;
  if (worked === undefined) throw new Error(`${well} could not be worked out`);
  return worked.evaluation;
}

describe('the least tap', () => {
  it('behind a filter that takes 3 % of 400 V less 8 %', () => {
    const evaluation = evaluationOf('pad-a/qm-a3.yaml');
    const plate = { power: 80e3, impedance: 0.045, loss: 1300, frequency: 50 };
    for (let at = 0; at < evaluation.caseCount; at++) {
      const tap = evaluation.number('transformer.tap_need_behind_filter', at) ?? Number.NaN;
      expect((emf(evaluation, at, tap, plate) * 400) / tap).toBeCloseTo(400 * 0.92 * 0.97, 2);
      expect(tap).toBeGreaterThan(evaluation.number('transformer.tap_need', at) ?? Number.NaN);
    }
  });

  it('on the line: nine tenths of the voltage at 480 V less 5 %, and all of it at 480 V', () => {
    const evaluation = evaluationOf('pad-c/qm-c1.yaml');
    const plate = { power: 150e3, impedance: 0.04, loss: 1900, frequency: 60 };
    for (let at = 0; at < evaluation.caseCount; at++) {
      const sagging = evaluation.number('transformer.tap_need_on_the_line', at) ?? Number.NaN;
      const nominal = evaluation.number('transformer.tap_need_at_nominal_supply', at) ?? Number.NaN;
      expect((emf(evaluation, at, sagging, plate, 0.9) * 480) / sagging).toBeCloseTo(480 * 0.95, 2);
      expect((emf(evaluation, at, nominal, plate) * 480) / nominal).toBeCloseTo(480, 2);
    }
  });
});

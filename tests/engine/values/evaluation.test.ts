import { describe, expect, it } from 'vitest';
import { missingEntries } from '../../../server/src/engine/values/missing.ts';
import { evaluate, LINEAR, number } from './project.ts';

function missing(id: string, edits: Record<string, string | undefined>): readonly string[] {
  const evaluation = evaluate(LINEAR, edits);
  const node = evaluation.network.byId.get(id);
  if (node === undefined) throw new Error(`no value is declared as '${id}'`);
  return missingEntries(evaluation, node, 0);
}

describe('cases', () => {
  it('are counted from one where they have no name', () => {
    const unit = evaluate(LINEAR, { 'operation.cases': '[{ intake: static }, { intake: flowing }]' });
    expect([unit.caseName(0), unit.caseName(1)]).toEqual(['case 1', 'case 2']);
  });

  it('have the first meant where none is named', () => {
    const unit = evaluate(LINEAR);
    expect(unit.number('pump.load')).toBe(number(unit, 'pump.load', 0));
    expect(unit.number('pump.load')).not.toBe(number(unit, 'pump.load', 1));
  });

  it('are what is missing where there is none, for a value of one and for one over all', () => {
    expect(missing('pump.load', { 'operation.cases': undefined })).toEqual(['operation.cases']);
    expect(missing('transformer.tap_min', { 'operation.cases': undefined })).toEqual(['operation.cases']);
  });

  it('say themselves what is missing where there is one', () => {
    const edits = { 'operation.cases': '[{ name: a, intake: static }]', 'pump.yaml: friction_force': undefined };
    expect(missing('pump.load', edits)).toEqual(['equipment.pump.friction_force']);
    expect(missing('motor.highest_running_current', edits)).toEqual(['equipment.pump.friction_force']);
  });
});

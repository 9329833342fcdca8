import { describe, expect, it } from 'vitest';
import { State } from '../../../server/src/engine/values/evaluation.ts';
import { explainInputs, leafEntries } from '../../../server/src/engine/values/explain.ts';
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

  it('leave each of their values missing where there is none', () => {
    const unit = evaluate(LINEAR, { 'operation.cases': undefined });
    const states = unit.network.nodes.filter(({ perCase }) => perCase).map((node) => unit.state(node, 0));
    expect(new Set(states)).toEqual(new Set([State.missing]));
  });

  it('say themselves what is missing where there is one', () => {
    const edits = { 'operation.cases': '[{ name: a, intake: static }]', 'pump.yaml: friction_force': undefined };
    expect(missing('pump.load', edits)).toEqual(['equipment.pump.friction_force']);
    expect(missing('motor.highest_running_current', edits)).toEqual(['equipment.pump.friction_force']);
  });
});

describe('what a value rests on', () => {
  const unit = evaluate(LINEAR, { 'transformer.yaml: taps': '[ { tap: 2, voltage: 1000 V } ]' });

  it('is told with lists counted', () => {
    const node = unit.network.byId.get('transformer.recommended_tap');
    if (node === undefined) throw new Error('no recommended tap is declared');
    expect(explainInputs(unit, node, 0).find(({ name }) => name === 'taps')?.text).toBe('1 row');
  });

  it('is followed down to the entries', () => {
    const node = unit.network.byId.get('pump.swept_area');
    if (node === undefined) throw new Error('no swept area is declared');
    expect(leafEntries(unit, node, 0)).toContain('equipment.pump.plunger_diameter');
  });
});

import { expect, it } from 'vitest';
import { NETWORK } from '../../../server/src/engine/index.ts';
import type { Source } from '../../../server/src/engine/values/declare.ts';
import { WINDOWS } from '../../../server/src/engine/windows/all.ts';

/** Ids of values and keys of entries that a declaration names, its conditions apart: they ask only whether it applies. */
function namedIn(id: string): readonly Source[] {
  const node = NETWORK.byId.get(id);
  if (node === undefined) throw new Error(`no value is declared as '${id}'`);
  return node.methods.flatMap(({ inputs }) => inputs.map(({ source }) => source));
}

/** Keys of all entries that a value may rest on, whatever method is taken. */
function closureOf(id: string): ReadonlySet<string> {
  const paths = new Set<string>();
  const visited = new Set<string>();
  const visit = (each: string): void => {
    if (visited.has(each)) return;
    visited.add(each);
    for (const source of namedIn(each)) {
      if ('path' in source) paths.add(source.path);
      if ('id' in source) visit(source.id);
    }
  };
  visit(id);
  return paths;
}

const BOUNDS = WINDOWS.flatMap(({ setpoint, bounds }) => bounds.map((bound) => ({ setpoint, bound })));

it.each(BOUNDS.map(({ setpoint, bound }) => [bound.id, setpoint, bound.value.id] as const))(
  'the bound %s does not rest on its own setpoint %s',
  (_, setpoint, id) => {
    expect([...closureOf(id)]).not.toContain(setpoint);
  },
);

it('the windows have bounds to look at', () => {
  expect(BOUNDS.length).toBeGreaterThan(40);
});

it('every bound has an id of its own', () => {
  const ids = BOUNDS.map(({ bound }) => bound.id);
  expect(ids.filter((id, at) => ids.indexOf(id) !== at)).toEqual([]);
});

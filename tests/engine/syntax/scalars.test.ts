import { expect, it } from 'vitest';
import { parseText } from '../../../server/src/engine/syntax/parse.ts';
import { resolvePlain } from '../../../server/src/engine/syntax/scalars.ts';

it.each([
  ['', null],
  ['~', null],
  ['null', null],
  ['true', true],
  ['FALSE', false],
  ['yes', 'yes'],
  ['no', 'no'],
  ['010', 10],
  ['0o17', 15],
  ['0x1F', 31],
  ['-1.5e3', -1500],
  ['.5', 0.5],
  ['5.', 5],
  ['-.inf', -Infinity],
  ['.nan', Number.NaN],
  ['1_000', '1_000'],
  ['12:30', '12:30'],
  ['1,5', '1,5'],
  ['+', '+'],
  ['.', '.'],
  ['1850 m', '1850 m'],
])('%j means %j', (text, value) => {
  expect(resolvePlain(text)).toEqual(value);
});

it('scalars are kept as they are written', () => {
  const { tree } = parseText('[00123, 1.10, 12e4, 010, 1_000, 12:30, 123456789012345678901]');
  const written = [...tree.children(0)].map((node) => tree.scalar(node));
  expect(written).toEqual(['00123', '1.10', '12e4', '010', '1_000', '12:30', '123456789012345678901']);
});

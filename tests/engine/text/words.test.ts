import { describe, expect, it } from 'vitest';
import { shortened } from '../../../server/src/engine/index.ts';

describe('a text that is cut off', () => {
  it.each([
    ['QM-A1', 5, 'QM-A1'],
    ['QM-A10', 5, 'QM-A…'],
    ['𝒜𝒝𝒞', 3, '𝒜𝒝𝒞'],
    ['𝒜𝒝𝒞𝒟', 3, '𝒜𝒝…'],
  ])('%s, of %i letters at most, is %s', (text, most, expected) => {
    expect(shortened(text, most)).toBe(expected);
  });
});

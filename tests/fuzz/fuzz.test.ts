import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Chance } from './random.ts';
import { spoilt } from './spoil.ts';
import { faultsWith, projects, seeds } from './try.ts';

const CORPUS = join(import.meta.dirname, 'corpus');
const SEED = 2026;
const TIMES = 400;

describe('whatever stands in a file, there is an answer', () => {
  const wells = projects();
  const texts = seeds();

  it.each(readdirSync(CORPUS).sort())('to what once broke something: %s', (name) => {
    const text = readFileSync(join(CORPUS, name), 'utf8');
    for (const well of wells) expect(faultsWith(text, well)).toEqual([]);
  });

  it('to spoilt documents', () => {
    const chance = new Chance(SEED);
    for (let time = 0; time < TIMES; time++) {
      const text = spoilt(chance.one(texts), chance, texts);
      expect(faultsWith(text, chance.one(wells)), JSON.stringify(text)).toEqual([]);
    }
  });
});

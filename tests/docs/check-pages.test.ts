import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../server/src/engine/index.ts';
import { checkPages } from '../../server/src/render/markdown/check-pages.ts';
import { referencePages } from '../../server/src/render/markdown/reference-pages.ts';
import { ROOT } from '../support/project.ts';

const FOLDER = join(ROOT, 'docs/checks');
const pages = checkPages(CATALOGUE);

describe('the pages of the checks', () => {
  it.each(pages.map(({ path, text }): [string, string] => [path, text]))('%s is as generated', (path, text) => {
    expect(readFileSync(join(FOLDER, path), 'utf8'), 'run: npm run pages').toBe(text);
  });

  it('are all there, and no other', () => {
    expect(readdirSync(FOLDER).sort()).toEqual(pages.map(({ path }) => path).sort());
  });

  it('link only to pages that exist', () => {
    const names = new Set(pages.map(({ path }) => path));
    for (const { path, text } of pages) {
      for (const [, target = ''] of text.matchAll(/\]\(([^)]+)\)/g))
        expect(names, `${path} → ${target}`).toContain(target);
    }
  });
});

describe('the pages of the reference', () => {
  const REFERENCE = join(ROOT, 'docs/reference');
  const reference = referencePages();

  it.each(reference.map(({ path, text }): [string, string] => [path, text]))('%s is as generated', (path, text) => {
    expect(readFileSync(join(REFERENCE, path), 'utf8'), 'run: npm run pages').toBe(text);
  });

  it('are all there, and no other', () => {
    // The page of the commands is held against the program by the test of the guide.
    expect(readdirSync(REFERENCE).sort()).toEqual([...reference.map(({ path }) => path), 'commands.md'].sort());
  });
});

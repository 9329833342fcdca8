import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CheckedFile } from '../../server/src/engine/index.ts';
import { NARROW, type PictureWidth, WIDE } from '../../server/src/render/svg/drawing.ts';
import type { Picture } from '../../server/src/render/svg/picture.ts';
import { casePictures, commonPictures } from '../../server/src/render/svg/pictures.ts';
import { windowRuler } from '../../server/src/render/svg/ruler.ts';
import { checked, type Edits, edited, openProject, SAMPLES } from '../support/project.ts';
import { all, type Element, parseXml } from './xml.ts';

const WELLS = ['pad-a/qm-a1', 'pad-a/qm-a2', 'pad-a/qm-a3', 'pad-b/qm-b1', 'pad-b/qm-b2', 'pad-b/qm-b3'];
const [LINEAR, ROTARY] = ['pad-a/qm-a1', 'pad-a/qm-a3'] as const;

function fileOf(well: string, edits: Edits = {}): CheckedFile {
  const path = join(SAMPLES, `${well}.yaml`);
  return checked(edited(openProject(path), path, edits), path);
}

function picturesOf({ worked }: CheckedFile, width: PictureWidth = WIDE): readonly Picture[] {
  const { evaluation } = worked!;
  const cases = Array.from({ length: evaluation.caseCount }, (_, at) => casePictures(evaluation, at, width));
  return [...commonPictures(evaluation, width), ...cases.flat()];
}

function rulersOf({ worked }: CheckedFile, width: PictureWidth = WIDE): readonly string[] {
  const { evaluation, windows } = worked!;
  return windows.filter(({ applies }) => applies).map((each) => windowRuler(evaluation, each, width));
}

function svgsOf(file: CheckedFile, width: PictureWidth = WIDE): readonly string[] {
  const drawn = picturesOf(file, width).flatMap((picture) => ('svg' in picture ? [picture.svg] : []));
  return [...drawn, ...rulersOf(file, width)];
}

function textsOf(svg: string): readonly string[] {
  return all(parseXml(svg))
    .filter(({ name }) => name === 'text')
    .map(({ text }) => text);
}

function pictureNamed(file: CheckedFile, id: string, caseIndex?: number): string {
  const found = picturesOf(file).find((each) => each.id === id && each.caseIndex === caseIndex);
  if (found === undefined || !('svg' in found)) throw new Error(`no picture ${id}`);
  return found.svg;
}

const BOTH = WELLS.flatMap((well) => [WIDE, NARROW].map((width) => [well, width] as const));

describe.each(BOTH)('the pictures of %s, %i wide', (well, width) => {
  const file = fileOf(well);
  const svgs = svgsOf(file, width);

  it('are all drawn', () => {
    expect(picturesOf(file).filter((each) => 'lacking' in each)).toEqual([]);
  });

  it('are well-formed, named and described, and take the colour of the text', () => {
    for (const svg of svgs) {
      const root = parseXml(svg);
      expect(root.attributes.get('role')).toBe('img');
      expect(root.children.map(({ name }) => name).slice(0, 2)).toEqual(['title', 'desc']);
      expect(root.children[0]!.text).not.toBe('');
      const inks = all(root).flatMap(({ attributes }) => [attributes.get('fill'), attributes.get('stroke')]);
      expect(new Set(inks)).toEqual(new Set([undefined, 'none', 'currentColor']));
    }
  });

  it('hold no number that is none', () => {
    for (const svg of svgs) expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('are small, and the same whenever they are drawn', () => {
    expect(svgsOf(fileOf(well), width)).toEqual(svgs);
    for (const svg of svgs) expect(svg.length).toBeLessThan(8_000);
  });

  it('have no text over another, and none outside of the picture', () => {
    for (const svg of svgs) {
      const boxes = boxesOf(parseXml(svg));
      const [, , width, height] = parseXml(svg).attributes.get('viewBox')!.split(' ').map(Number) as number[];
      for (const [at, box] of boxes.entries()) {
        expect(box.left, box.text).toBeGreaterThanOrEqual(0);
        expect(box.right, box.text).toBeLessThanOrEqual(width!);
        expect(box.bottom, box.text).toBeLessThanOrEqual(height! + 1);
        for (const other of boxes.slice(at + 1)) expect(overlap(box, other), `${box.text} / ${other.text}`).toBe(false);
      }
    }
  });
});

interface TextBox {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Boxes of the texts, of letters of middling width. */
function boxesOf(root: Element): readonly TextBox[] {
  return all(root)
    .filter(({ name, attributes }) => name === 'g' && attributes.has('text-anchor'))
    .flatMap(({ attributes, children }) => children.map((each) => boxOf(each, attributes.get('text-anchor')!)));
}

function boxOf({ attributes, text }: Element, anchor: string): TextBox {
  const [x, y] = [Number(attributes.get('x')), Number(attributes.get('y'))];
  const width = 5.6 * text.length;
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
  return { text, left, right: left + width, top: y - 8, bottom: y + 2 };
}

function overlap(a: TextBox, b: TextBox): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

describe('what the pictures say', () => {
  it('stands in the author’s units', () => {
    const texts = textsOf(pictureNamed(fileOf('pad-b/qm-b1'), 'pressure', 1));
    const { worked } = fileOf('pad-b/qm-b1');
    const key = 'reservoir.pressure';
    const written = worked!.evaluation.entryText(key, key.split('.'))!;
    const unit = written.replace(/^\S+\s*/, '').replace(/\(.*/, '');
    expect(texts.some((text) => text.includes(unit))).toBe(true);
  });

  it('names the trip, the bubble point and the discharge at the intake', () => {
    const texts = textsOf(pictureNamed(fileOf(LINEAR), 'pressure', 1)).join('\n');
    expect(texts).toMatch(/trip 17 bar\(g\)/);
    expect(texts).toMatch(/bubble point 34 bar\(g\)/);
    expect(texts).toMatch(/discharge [\d.]+ bar\(g\)/);
    expect(texts).toMatch(/liquid at rest \d+/);
  });

  it('draws the pump at the frequencies of the cases and no other', () => {
    const texts = textsOf(pictureNamed(fileOf(ROTARY), 'pump-curve'));
    const { evaluation } = fileOf(ROTARY).worked!;
    const hertz = Array.from({ length: evaluation.caseCount }, (_, at) => evaluation.number('motor.frequency', at));
    const named = texts.filter((text) => text.startsWith('pump, ')).map((text) => Number.parseFloat(text.slice(6)));
    expect(new Set(named)).toEqual(new Set(hertz));
    expect(named).toHaveLength(new Set(hertz).size);
  });

  it('has the pump’s curve of a linear well nowhere, and a stroke in each of its cases', () => {
    const ids = picturesOf(fileOf(LINEAR)).map(({ id }) => id);
    expect(ids).not.toContain('pump-curve');
    expect(ids.filter((id) => id === 'stroke')).toHaveLength(fileOf(LINEAR).worked!.evaluation.caseCount);
  });

  it('puts each tap of the plate on the ruler, and what is set', () => {
    const tap = rulersOf(fileOf(LINEAR)).find((svg) => svg.includes('tap 1, '));
    const texts = textsOf(tap!);
    for (const number of [1, 2, 3, 4, 5, 6, 7]) expect(texts.join('\n')).toContain(`tap ${number}, `);
    expect(texts.filter((text) => text.startsWith('set'))).toHaveLength(1);
  });

  it('moves with the setpoint', () => {
    const key = 'setpoints.protection.intake_pressure_low.trip';
    const ruler = rulersOf(fileOf(LINEAR, { [key]: '15 bar' })).find((svg) => svg.includes('intake-pressure trip'));
    expect(textsOf(ruler!)).toContain('set: 15 bar(g)');
  });

  it('is a sentence where an entry is missing, and names it', () => {
    const lacking = picturesOf(fileOf(LINEAR, { 'reservoir.temperature': '' })).filter((each) => 'lacking' in each);
    expect(lacking.map(({ id }) => id)).toContain('temperature');
    for (const each of lacking)
      expect('lacking' in each && each.lacking).toMatch(/reservoir\.temperature (is|are) not/);
  });

  it('keeps names of any length inside the picture', () => {
    const svgs = svgsOf(fileOf(ROTARY, { 'operation.cases[1].name': 'a very long name '.repeat(20) }));
    for (const svg of svgs) for (const box of boxesOf(parseXml(svg))) expect(box.right).toBeLessThanOrEqual(600);
  });

  it('does nothing that a name tells it', () => {
    const name = `"</text><script>alert(1)</script> & ' \\u0007 \\u202e"`;
    const svgs = svgsOf(fileOf(ROTARY, { 'operation.cases[1].name': name }));
    expect(svgs.filter((svg) => svg.includes('alert(1)')).length).toBeGreaterThan(2);
    for (const svg of svgs) {
      expect(svg).not.toContain('<script');
      expect(svg).not.toContain('\u202e');
      expect(all(parseXml(svg)).map((each) => each.name)).not.toContain('script');
    }
  });
});

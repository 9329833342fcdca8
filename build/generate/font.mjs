import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { deflateSync } from 'node:zlib';
import * as fontkit from '@cantoo/fontkit';
import subsetFont from 'subset-font';

const require = createRequire(import.meta.url);
const FACES = { regular: 'DejaVuSansCondensed.ttf', bold: 'DejaVuSansCondensed-Bold.ttf' };

/** What documents of the trade are written in: Latin with its extensions, Greek, Cyrillic, and signs of quantities. */
const RANGES = [
  ...[
    [0x20, 0x7e],
    [0xa0, 0x24f],
    [0x370, 0x3ff],
    [0x400, 0x4ff],
    [0x1e00, 0x1eff],
  ],
  ...[
    [0x2010, 0x2027],
    [0x2030, 0x203a],
    [0x2044, 0x2044],
    [0x2070, 0x209f],
    [0x20a0, 0x20bf],
    [0x2100, 0x218f],
  ],
  ...[
    [0x2190, 0x21ff],
    [0x2200, 0x22ff],
    [0x25a0, 0x25ff],
    [0x2610, 0x2612],
    [0xfffd, 0xfffd],
  ],
];

/** `fonts.ts`: subsets of a free font for the PDF form, with what is needed to set text in them. */
export async function writeFonts() {
  const faces = await Promise.all(Object.entries(FACES).map(async ([name, file]) => [name, await readFace(file)]));
  return `// Generated from the DejaVu fonts by build/generate.mjs; do not edit.
import type { FontData } from '../font-data.ts';

export const FONTS: Readonly<Record<'regular' | 'bold', FontData>> = ${JSON.stringify(Object.fromEntries(faces))};
`;
}

async function readFace(file) {
  const whole = readFileSync(require.resolve(`dejavu-fonts-ttf/ttf/${file}`));
  const wanted = String.fromCodePoint(...RANGES.flatMap(([from, to]) => codes(from, to)));
  const bytes = await subsetFont(whole, wanted, { targetFormat: 'truetype', noLayoutClosure: true });
  const font = (fontkit.default ?? fontkit).create(bytes);
  const scale = 1000 / font.unitsPerEm;
  const points = font.characterSet.filter((code) => wanted.includes(String.fromCodePoint(code))).sort((a, b) => a - b);
  const glyphs = points.map((code) => font.glyphForCodePoint(code).id);
  return {
    name: font.postscriptName,
    // As it goes into the document, so that nothing is compressed when a form is made.
    deflated: deflateSync(bytes, { level: 9 }).toString('base64'),
    length: bytes.length,
    box: [font.bbox.minX, font.bbox.minY, font.bbox.maxX, font.bbox.maxY].map((each) => Math.round(each * scale)),
    ascent: Math.round(font.ascent * scale),
    descent: Math.round(font.descent * scale),
    capHeight: Math.round(font.capHeight * scale),
    widths: codes(0, font.numGlyphs - 1).map((id) => Math.round(font.getGlyph(id).advanceWidth * scale)),
    points,
    glyphs,
    toUnicode: deflateSync(toUnicode(points, glyphs), { level: 9 }).toString('base64'),
  };
}

function codes(from, to) {
  return Array.from({ length: to - from + 1 }, (_, index) => from + index);
}

/** Entries of one section of such a table, by the Adobe technical note 5411. */
const MOST_IN_SECTION = 100;

/** Which characters the glyphs stand for, so that text can be searched, copied and read aloud. */
function toUnicode(points, glyphs) {
  // Of several characters that share a glyph the first is taken: the plain one.
  const byGlyph = new Map();
  points.forEach((point, index) => {
    const glyph = glyphs[index] ?? 0;
    if (!byGlyph.has(glyph)) byGlyph.set(glyph, point);
  });
  const lines = [...byGlyph].map(([glyph, point]) => `<${hex(glyph)}> <${hex(point)}>`);
  const sections = Array.from({ length: Math.ceil(lines.length / MOST_IN_SECTION) }, (_, index) =>
    lines.slice(index * MOST_IN_SECTION, (index + 1) * MOST_IN_SECTION),
  );
  return [
    '/CIDInit /ProcSet findresource begin',
    '12 dict begin',
    'begincmap',
    '/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def',
    '/CMapName /Adobe-Identity-UCS def',
    '/CMapType 2 def',
    '1 begincodespacerange',
    '<0000> <ffff>',
    'endcodespacerange',
    ...sections.flatMap((section) => [`${section.length} beginbfchar`, ...section, 'endbfchar']),
    'endcmap',
    'CMapName currentdict /CMap defineresource pop',
    'end',
    'end',
  ].join('\n');
}

function hex(code) {
  return code.toString(16).padStart(4, '0');
}

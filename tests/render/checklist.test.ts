import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { renderChecklistHtml } from '../../server/src/render/checklist/html.ts';
import { renderChecklistJson } from '../../server/src/render/checklist/json.ts';
import { renderChecklistMarkdown } from '../../server/src/render/checklist/markdown.ts';
import { cssString, html } from '../../server/src/render/html/escape.ts';
import { escapeMarkdown } from '../../server/src/render/markdown/escape.ts';
import { checklistOf, stepsOf } from '../engine/checklist/project.ts';

const WELL = 'wells/t2-07.yaml';
const CLEAN = checklistOf();
const PAGE = renderChecklistHtml(CLEAN, { paper: 'a4' });
const HOSTILE = '</style><script>alert(1)</script><img src=x onerror="a">';

/** The same project with a text of ill will wherever a text can stand. */
const ATTACKED = checklistOf({
  [WELL]: [
    ['well: T2-07', `well: '${HOSTILE}'`],
    ['drafting engineer', `'${HOSTILE}'`],
    ['name: target', `name: '${HOSTILE}'`],
    ['LM-0472', `'${HOSTILE}'`],
  ],
  'eq/motor.yaml': [
    ['Do not roll the motor.', `'${HOSTILE}'`],
    ['test: insulation', `test: 'insulation ${HOSTILE}'`],
    ['name: head flange', `name: '${HOSTILE}'`],
  ],
});

describe('HTML', () => {
  it('has every step by its id, and no id twice', () => {
    const ids = [...PAGE.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { id } of stepsOf(CLEAN)) expect(ids).toContain(id);
  });

  it('needs no script and loads nothing', () => {
    expect(PAGE).not.toMatch(/<script|<link|<iframe|<object|\ssrc=|\shref=|@import|url\((?!"data:image)|javascript:/i);
    expect(PAGE).toContain("default-src 'none'");
  });

  it('names language, landmarks and table heads', () => {
    expect(PAGE).toMatch(/^<!doctype html>\n<html lang="en">/);
    expect(PAGE).toContain('<main>');
    expect(PAGE.match(/<section class="stage" aria-labelledby="stage-/g)).toHaveLength(8);
    expect(PAGE.match(/<h1 /g)).toHaveLength(1);
    expect(PAGE.match(/<table/g)?.length).toBe(PAGE.match(/<thead>/g)?.length);
    expect(PAGE).not.toMatch(/<thead><tr>(?:(?!<\/thead>).)*<td/);
  });

  it('never skips a level of heading', () => {
    const levels = [...PAGE.matchAll(/<h([1-6])/g)].map((match) => Number(match[1]));
    levels.forEach((level, index) => {
      expect(level).toBeLessThanOrEqual((levels[index - 1] ?? 0) + 1);
    });
  });

  it('carries the code of the fingerprint with a name for those who cannot see it', () => {
    expect(PAGE).toMatch(/role="img" aria-label="QR code of the fingerprint"><svg /);
    expect(PAGE).toContain(`<code>${CLEAN.fingerprint}</code>`);
  });

  it('bands an installation with errors, and no other', () => {
    const broken = checklistOf({ [WELL]: [['trip: 12 bar,', 'trip: 900 bar,']] });
    expect(renderChecklistHtml(broken, { paper: 'a4' })).toContain('<p class="band" role="alert">');
    expect(PAGE).not.toContain('class="band"');
  });

  it('is set for the paper asked for', () => {
    expect(PAGE).toContain('size: A4 portrait');
    expect(renderChecklistHtml(CLEAN, { paper: 'letter' })).toContain('size: letter portrait');
  });

  it('prints texts of ill will as texts', () => {
    const page = renderChecklistHtml(ATTACKED, { paper: 'a4' });
    expect(page).not.toMatch(/<script|<img/i);
    expect(page.match(/<\/style>/g)).toHaveLength(1);
    expect(page).toContain('&lt;script&gt;alert(1)');
    // Quotes cannot leave an attribute: every tag is one of ours.
    expect(page).not.toMatch(/ onerror="/);
  });

  it('is the same for the same file', () => {
    expect(renderChecklistHtml(checklistOf(), { paper: 'a4' })).toBe(PAGE);
  });
});

describe('escaping', () => {
  it('escapes what goes into a template, and keeps what it made itself', () => {
    const inner = html`<b>${'<&"\''}</b>`;
    expect(html`<p title="${'"><x'}">${inner}${[1, ' ', undefined]}</p>`.text).toBe(
      '<p title="&quot;&gt;&lt;x"><b>&lt;&amp;&quot;&#39;</b>1 </p>',
    );
  });

  it('shows control and direction characters instead of obeying them', () => {
    expect(html`${'a\u0000b\u202ec\nd'}`.text).toBe('a\\u0000b\\u202ec d');
  });

  it('keeps a text inside its CSS string', () => {
    expect(cssString('a"; } </style> \\ ü')).toBe('"a\\22 \\3b  \\7d  \\3c \\2f style\\3e  \\5c  \\fc "');
  });

  it('leaves no markup, table cell or link in Markdown', () => {
    expect(escapeMarkdown('# a | [b](c) <i> `d`\n* e')).toBe('\\# a \\| \\[b\\](c) &lt;i&gt; \\`d\\` \\* e');
  });
});

describe('Markdown', () => {
  const text = renderChecklistMarkdown(CLEAN);

  it('has each stage, each step, and a table of settings', () => {
    for (const { title } of CLEAN.stages) expect(text).toContain(`\n## ${title}\n`);
    for (const { id, kind } of stepsOf(CLEAN)) if (kind !== 'caution') expect(text).toContain(`\`${id}\``);
    expect(text).toContain('| Overload: trip | 15 A |');
    expect(text).toContain('> **Caution.** ');
  });

  it('prints texts of ill will as texts', () => {
    expect(renderChecklistMarkdown(ATTACKED)).not.toMatch(/<script|<img|<\/style/i);
  });
});

describe('JSON', () => {
  it('follows its schema', () => {
    const path = join(import.meta.dirname, '../../schemas/checklist-output.schema.json');
    const validate = new Ajv2020({ allowUnionTypes: true }).compile(JSON.parse(readFileSync(path, 'utf8')));
    expect(validate(JSON.parse(renderChecklistJson(CLEAN))), JSON.stringify(validate.errors)).toBe(true);
  });

  it('reads back as the list itself', () => {
    expect(JSON.parse(renderChecklistJson(CLEAN)).stages).toEqual(JSON.parse(JSON.stringify(CLEAN.stages)));
  });
});

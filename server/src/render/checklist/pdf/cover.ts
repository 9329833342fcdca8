import type { Checklist, FigureLine, Overview } from '../../../engine/index.ts';
import { factsBlock } from '../../pdf/facts.ts';
import type { Block } from '../../pdf/flow.ts';
import type { Picture } from '../../pdf/qr.ts';
import { drawLines, drawText, inPieces, type Lines, type Setter, STYLES } from '../../pdf/setter.ts';
import { identityPairs } from '../words.ts';

/** What stands on the cover before its steps: who, what, in which numbers, and what is open. */
export function coverBlocks(setter: Setter, checklist: Checklist, code: Picture): readonly Block[] {
  const { overview, fingerprint } = checklist;
  return [
    factsBlock(setter, identityPairs(checklist), code),
    setter.paragraph(`Fingerprint ${fingerprint}`, STYLES.note, { before: 3, after: 4 }),
    setter.paragraph(countsText(overview), STYLES.text, { after: 4 }),
    ...figures(setter, overview),
    ...openPoints(setter, overview),
  ];
}

function countsText({ counts }: Overview): string {
  const { errors, warnings, notes, deviated, passed, notRun, setAside } = counts;
  return (
    `How the checks of the file ended: ${errors} errors, ${warnings} warnings, ${notes} notes open; ${deviated} accepted; ` +
    `${passed} passed, ${notRun} not run, ${setAside} set aside.`
  );
}

function figures(setter: Setter, { figures: lines, cases, caseFigures }: Overview): readonly Block[] {
  return [
    ...(lines.length === 0 ? [] : [heading(setter, 'The installation in numbers')]),
    ...lines.map(({ title, values }) => figureRow(setter, title, values)),
    ...(caseFigures.length === 0
      ? []
      : [heading(setter, 'Computed for each case'), figureRow(setter, 'Case', cases, true)]),
    ...caseFigures.map((each: FigureLine) => figureRow(setter, each.title, each.values)),
  ];
}

function heading(setter: Setter, text: string): Block {
  return setter.paragraph(text, STYLES.group, { before: 5, after: 2, tag: 'H2', staysWithNext: true });
}

function figureRow(setter: Setter, title: string, values: readonly string[], isHead = false): Block {
  const { x, width } = setter.column;
  const first = values.length === 1 ? width / 2 : Math.min(150, width / 3);
  const each = (width - first) / Math.max(1, values.length);
  const name = setter.lines(title, STYLES.note, first - 4);
  const cells = values.map((value) =>
    setter.lines(value, isHead || values.length === 1 ? STYLES.smallStrong : STYLES.note, each - 4),
  );
  const height = Math.max(name.height, ...cells.map((cell) => cell.height)) + 3;
  return {
    height,
    staysWithNext: isHead,
    draw: (canvas, top) => {
      canvas.tagged('P', () => {
        drawLines(canvas, name, x, top - 1);
        cells.forEach((cell: Lines, index) => {
          drawLines(canvas, cell, x + first + index * each, top - 1);
        });
      });
      canvas.rule(x, top - height + 0.5, width, 0.3);
    },
  };
}

const SEVERITY_WORDS = { error: 'Error.', warning: 'Warning.', note: 'Note.' } as const;

function openPoints(setter: Setter, { findings, deviations, notRun, setAside }: Overview): readonly Block[] {
  const list = (title: string, texts: readonly string[]) =>
    texts.length === 0 ? [] : [heading(setter, title), ...texts.flatMap((text) => paragraphs(setter, text))];
  return [
    ...list(
      'Open findings',
      findings.map(({ severity, message, check }) => `${SEVERITY_WORDS[severity]} ${message} (${check})`),
    ),
    ...list(
      'Accepted deviations',
      deviations.map(
        ({ message, check, reason, until, approvedBy }) =>
          `${message} (${check}) Accepted until ${until} by ${approvedBy}: ${reason}.`,
      ),
    ),
    ...list(
      'Checks not run, and what they lack',
      notRun.map(({ check, missing }) => `${check}: ${missing.join(', ')}`),
    ),
    ...list(
      'Checks set aside by the policy',
      setAside.map(({ check, reason }) => `${check}: ${reason}`),
    ),
  ];
}

function paragraphs(setter: Setter, text: string): readonly Block[] {
  const { x, width } = setter.column;
  return inPieces(setter.lines(text, STYLES.note, width)).map((lines) => ({
    height: lines.height + 2,
    draw: (canvas, top) => drawText(canvas, 'P', lines, x, top),
  }));
}

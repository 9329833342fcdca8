import { type Checklist, FORM_FIELDS, type Stage, shortened } from '../../engine/index.ts';
import type { Paper } from '../html/print-css.ts';
import type { Block } from '../pdf/flow.ts';
import { shortFingerprint } from '../pdf/frame.ts';
import { type Picture, qrPicture } from '../pdf/qr.ts';
import { type Setter, STYLES } from '../pdf/setter.ts';
import { typeset } from '../pdf/typeset.ts';
import { coverBlocks } from './pdf/cover.ts';
import { stepRows, tableHead } from './pdf/rows.ts';
import { groupsOf, revisionText, type StepGroup } from './words.ts';

export interface PdfOptions {
  readonly paper: Paper;
}

/**
 * The checklist as a PDF form: a field for each thing that is ticked, read, set or signed, named by the step.
 * The same checklist gives the same bytes. Nothing is loaded; fonts are embedded.
 */
export function renderChecklistPdf(checklist: Checklist, { paper }: PdfOptions): Promise<Uint8Array> {
  const { title, band, fingerprint, installation, units, deferral } = checklist;
  const code = qrPicture(fingerprint);
  const marks = [
    [FORM_FIELDS.installation, installation],
    [FORM_FIELDS.fingerprint, fingerprint],
    [FORM_FIELDS.units, units],
  ] as const;
  return typeset(paper, {
    about: { title, subject: deferral, marks },
    frame: { band, foot: footTexts(checklist), code },
    blocks: (setter) => blocksOf(setter, checklist, code),
  });
}

const LONGEST_NAME = 60;

function footTexts({ well, revision, fingerprint, deferral }: Checklist): readonly string[] {
  return [
    `Well ${shortened(well, LONGEST_NAME)}. ${revisionText(revision)}. ${shortFingerprint(fingerprint)}`,
    deferral,
  ];
}

function blocksOf(setter: Setter, checklist: Checklist, code: Picture): readonly Block[] {
  return checklist.stages.flatMap((stage, index) => [
    ...(index === 0 ? coverTitle(setter, checklist, code) : [stageTitle(setter, stage, index)]),
    ...groupsOf(stage.steps).flatMap((group) => groupBlocks(setter, group)),
  ]);
}

function coverTitle(setter: Setter, checklist: Checklist, code: Picture): readonly Block[] {
  const title = setter.paragraph(checklist.title, STYLES.title, { after: 6, tag: 'H1', staysWithNext: true });
  return [title, ...coverBlocks(setter, checklist, code)];
}

function stageTitle(setter: Setter, { title }: Stage, index: number): Block {
  const options = { after: 4, tag: 'H2', staysWithNext: true, startsPage: true } as const;
  return setter.paragraph(`${index}. ${title}`, STYLES.stage, options);
}

function groupBlocks(setter: Setter, { title, steps }: StepGroup): readonly Block[] {
  const head = tableHead(
    setter,
    steps.every(({ kind }) => kind === 'set'),
  );
  const options = { before: 7, after: 2, tag: 'H3', staysWithNext: true } as const;
  const heading = title === undefined ? [] : [setter.paragraph(title, STYLES.group, options)];
  return [...heading, ...steps.flatMap((step) => stepRows(setter, step, head))];
}

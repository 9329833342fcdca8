import type { Problem } from '../text/problem.ts';
import { SourceText } from '../text/source.ts';
import type { Span } from '../text/span.ts';
import { TreeBuilder } from './builder.ts';
import { type Refusal, readEvents, writeEvents } from './fast.ts';
import { type GeneralParser, readGenerally } from './general.ts';
import { findUnreadable } from './limits.ts';
import { Mask } from './mask.ts';
import { sentenceFor } from './messages.ts';
import { ProblemList } from './problems.ts';
import type { SyntaxTree } from './tree.ts';
import { TreeWriter } from './writer.ts';

export interface ParsedText {
  readonly source: SourceText;
  readonly tree: SyntaxTree;
  /** In the order of the text; one for each cause. */
  readonly problems: readonly Problem[];
}

/** Slips that are masked in one text before the rest is left to the general parser; each costs one more fast parse. */
const MAX_MASKS = 24;

/** Characters that all those parses may read together, so that a large broken text ends as soon as a small one. */
const MAX_MASKED_LENGTH = 2 * 1024 * 1024;

/** The general parser slows down with size and disorder, so a larger broken text gets the fast parser's error alone. */
const GENERAL_LENGTH = 64 * 1024;

/**
 * Parses a YAML text into a table of located nodes. Never throws: whatever is wrong is a problem at its place, and the
 * tree holds what could be read in spite of it; of a text beyond the limits it is empty or ends where the limit is met.
 *
 * @param general reads what the fast parser refuses.
 */
export function parseText(text: string, general: GeneralParser = readGenerally): ParsedText {
  const source = new SourceText(text);
  const unreadable = findUnreadable(source);
  if (unreadable) return { source, tree: new TreeBuilder(0).finish(source), problems: [unreadable] };
  const problems = new ProblemList();
  const tree = buildTree(new Mask(source, problems), problems, general);
  return { source, tree, problems: problems.finish() };
}

function buildTree(mask: Mask, problems: ProblemList, general: GeneralParser): SyntaxTree {
  for (let masks = 0; ; masks++) {
    const events = readEvents(mask.structure);
    const mayMask = masks < MAX_MASKS && masks * mask.structure.length < MAX_MASKED_LENGTH;
    if ('reason' in events) {
      if (mayMask && mask.hide(events)) continue;
      return readRefused(events, mask, problems, general);
    }
    const found = new ProblemList();
    const writer = new TreeWriter(mask, found);
    writeEvents(events, mask, writer);
    if (writer.gluedLine !== undefined && mayMask && mask.hideGluedLine(writer.gluedLine)) continue;
    problems.addAll(found);
    return writer.finish();
  }
}

function readRefused(refusal: Refusal, mask: Mask, problems: ProblemList, general: GeneralParser): SyntaxTree {
  const writer = new TreeWriter(mask, problems);
  const span = characterAt(mask.structure, refusal.offset);
  if (/maxDepth/.test(refusal.reason)) writer.stopAtDepth(span.start);
  else if (mask.structure.length > GENERAL_LENGTH || !recovers(mask, writer, problems, general)) {
    problems.put('document.syntax', span, sentenceFor(refusal.reason));
  }
  return writer.finish();
}

/** False where the general parser runs out of stack, as on thousands of brackets after an error. */
function recovers(mask: Mask, writer: TreeWriter, problems: ProblemList, general: GeneralParser): boolean {
  try {
    general(mask, writer, problems);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/** The character at an offset, or the last one where the offset is the end of the text. */
function characterAt(text: string, offset: number): Span {
  const start = Math.max(0, Math.min(offset, text.length - 1));
  return { start, end: Math.min(start + 1, text.length) };
}

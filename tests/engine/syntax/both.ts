import { readEvents, writeEvents } from '../../../server/src/engine/syntax/fast.ts';
import { readGenerally } from '../../../server/src/engine/syntax/general.ts';
import { Mask } from '../../../server/src/engine/syntax/mask.ts';
import { ProblemList } from '../../../server/src/engine/syntax/problems.ts';
import type { SyntaxTree } from '../../../server/src/engine/syntax/tree.ts';
import { TreeWriter } from '../../../server/src/engine/syntax/writer.ts';
import type { Problem } from '../../../server/src/engine/text/problem.ts';
import { SourceText } from '../../../server/src/engine/text/source.ts';

export interface Outcome {
  readonly tree: SyntaxTree;
  readonly problems: readonly Problem[];
}

/** By the fast parser alone, without masks; `undefined` where it refuses. */
export function parseFast(text: string): Outcome | undefined {
  const problems = new ProblemList();
  const mask = new Mask(new SourceText(text), problems);
  const events = readEvents(mask.structure);
  if ('reason' in events) return undefined;
  const writer = new TreeWriter(mask, problems);
  writeEvents(events, mask, writer);
  return { tree: writer.finish(), problems: problems.finish() };
}

/** By the general parser alone. */
export function parseGenerally(text: string): Outcome {
  const problems = new ProblemList();
  const mask = new Mask(new SourceText(text), problems);
  const writer = new TreeWriter(mask, problems);
  readGenerally(mask, writer, problems);
  return { tree: writer.finish(), problems: problems.finish() };
}

/** All that a tree says, as lines to compare. */
export function listing(tree: SyntaxTree): readonly string[] {
  return Array.from({ length: tree.size }, (_, node) => {
    const { start, end } = tree.span(node);
    const key = tree.keySpan(node);
    const value = JSON.stringify(tree.scalar(node));
    return `${tree.path(node)} ${tree.kind(node)}/${tree.style(node)} ${start}-${end} key ${key.start}-${key.end} ${value}`;
  });
}

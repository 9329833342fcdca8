import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Document, Repository } from '../../../server/src/engine/index.ts';
import { examples } from '../../support/chance.ts';
import { checked, openProject, SAMPLES } from '../../support/project.ts';

/** One entry of a file of the well, picked by its place among them, and what its author makes of it. */
interface Edit {
  readonly file: number;
  readonly entry: number;
  readonly to: (written: string) => string;
}

/** Halved, a digit more, with a tolerance, another word, left blank, unreadable; and a line that says nothing. */
const rewriting = fc.constantFrom<Edit['to']>(
  (written) => written.replace(/^\d+(\.\d+)?/, (digits) => String(Number(digits) / 2)),
  (written) => written.replace(/^\d/, (digit) => digit + digit),
  (written) => (/^\d[\d.]* \S+$/.test(written) ? `${written} +- 3 %` : written),
  (written) => (written === 'linear' ? 'rotary' : written === 'flowing' ? 'static' : written),
  () => '',
  () => 'about right',
  (written) => `${written} # seen`,
);
const edit: fc.Arbitrary<Edit> = fc.record({ file: fc.nat(), entry: fc.nat(), to: rewriting });

function withEdit(repository: Repository, { file, entry, to }: Edit): Repository {
  const paths = repository.paths();
  const document = repository.document(paths[file % paths.length] ?? '') as Document;
  const { tree, source } = document;
  const entries = Array.from({ length: tree.size }, (_, node) => node).filter((node) => tree.isScalar(node));
  const { start, end } = tree.span(entries[entry % entries.length] ?? 0);
  const text = source.text.slice(0, start) + to(source.text.slice(start, end)) + source.text.slice(end);
  return repository.update([{ path: document.path, text }]);
}

/** The same texts, read and checked for the first time. */
function anew(repository: Repository): Repository {
  const texts = repository.paths().map((path) => ({ path, text: repository.document(path)?.source.text ?? '' }));
  return Repository.empty(repository.options).update(texts);
}

/** All that is said of a well: findings, statuses with their margins, values with what became of them, windows. */
function said(repository: Repository, path: string): unknown {
  const { findings, statuses, worked } = checked(repository, path);
  const margins = [...statuses].map(([id, status]) => [id, { ...status, margin: 'margin' in status && status.margin }]);
  if (worked === undefined) return { findings, margins };
  const { evaluation, windows } = worked;
  const values = evaluation.network.nodes.map((node) => {
    const cases = Array.from({ length: node.perCase ? Math.max(1, evaluation.caseCount) : 1 }, (_, at) => at);
    return [
      node.declaration.id,
      ...cases.map((at) => [
        evaluation.state(node, at),
        evaluation.numberOf(node, at),
        evaluation.methodOf(node, at)?.method.formula,
        evaluation.supply(node, at),
      ]),
      evaluation.bindingCase(node),
    ];
  });
  const bounds = windows.map(({ setpoint, missing, ends, recommended, bounds: read }) => [
    ...[setpoint, missing, ends, recommended],
    ...read.map(({ status, number, caseIndex, missing: lacking, corner }) => [
      status,
      number,
      caseIndex,
      lacking,
      corner,
    ]),
  ]);
  return { findings, margins, values, bounds };
}

describe('a well that is edited entry by entry', () => {
  it.each(['pad-a/qm-a2.yaml', 'pad-b/qm-b2.yaml'])('comes to what it comes to when read anew: %s', (name) => {
    const path = join(SAMPLES, name);
    const whole = openProject(path);
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 4 }), (edits) => {
        let repository = whole;
        checked(repository, path);
        for (const each of edits) {
          repository = withEdit(repository, each);
          expect(said(repository, path)).toEqual(said(anew(repository), path));
        }
      }),
      examples(30),
    );
  });
});

import { join } from 'node:path';
import { limitsText, numbersOf } from '../support/numbers.ts';
import { checked, openProject } from '../support/project.ts';

/** All numbers of the sample wells, and all limits: what `tests/repositories/numbers.test.ts` compares, in one text. */
export function allNumbers(samples: string): string {
  const wells = ['a/qm-a1', 'a/qm-a2', 'a/qm-a3', 'b/qm-b1', 'b/qm-b2', 'b/qm-b3'];
  const texts = wells.map((name) => {
    const path = join(samples, `pad-${name}.yaml`);
    return numbersOf(checked(openProject(path, samples), path));
  });
  return [...texts, limitsText()].join('\n');
}

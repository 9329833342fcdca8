import { basename, join } from 'node:path';
import type { CheckedFile } from '../../server/src/engine/index.ts';
import { checked, openProject, SAMPLES } from './project.ts';

/** An installation whose numbers are kept, and what it was made from. */
export interface KnownWell {
  readonly name: string;
  readonly file: () => CheckedFile;
}

const SAMPLE_WELLS = ['a1', 'a2', 'a3', 'b1', 'b2', 'b3', 'c1', 'c2', 'c3', 'c4'].map(
  (name) => `${name[0]}/qm-${name}`,
);

export function knownWells(): readonly KnownWell[] {
  return SAMPLE_WELLS.map((each) => join(SAMPLES, `pad-${each}.yaml`)).map((path) => ({
    name: basename(path, '.yaml'),
    file: () => checked(openProject(path), path),
  }));
}

import { basename, join } from 'node:path';
import type { CheckedFile } from '../../server/src/engine/index.ts';
import { checked, openProject, SAMPLES } from './project.ts';

/** An installation whose numbers are kept, and what it was made from. */
export interface KnownWell {
  readonly name: string;
  readonly file: () => CheckedFile;
}

const SAMPLE_WELLS = ['a/qm-a1', 'a/qm-a2', 'a/qm-a3', 'b/qm-b1', 'b/qm-b2', 'b/qm-b3'];

export function knownWells(): readonly KnownWell[] {
  return SAMPLE_WELLS.map((each) => join(SAMPLES, `pad-${each}.yaml`)).map((path) => ({
    name: basename(path, '.yaml'),
    file: () => checked(openProject(path), path),
  }));
}

import { text } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const WELL = 'site.well';

/** Letters and digits only, case ignored: `A2-07` and `a2_07` are one name. */
function plain(name: string): string {
  return name.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
}

export const IDENTITY_PATH_MISMATCH: Check = check({
  id: 'identity.path-mismatch',
  severity: 'warning',
  title: 'file name and well differ',
  compares: 'the name of the file with the name of the well, letters and digits only',
  why: 'A file copied for a new well and edited in part carries the numbers of the old one, to the wrong well.',
  mend: 'Name the file after the well, or correct the name of the well.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [WELL]: 'QM-Z9' }, at: WELL },
  needs: { well: text(WELL) },
  run: ({ well }, context) => {
    const { path } = context.evaluation.installation.document;
    const file = path.slice(path.lastIndexOf('/') + 1);
    if (plain(file).includes(plain(well))) return undefined;
    return {
      key: WELL,
      message: `The file '${file}' describes the well '${well}'. Name the file after its well, or correct the name of the well if the file was copied.`,
    };
  },
});

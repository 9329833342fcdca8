import { foundInFile } from '../declare.ts';
import { type AcrossCheck, elsewhere, filesOf } from './declare.ts';

export const DUPLICATE_WELL: AcrossCheck = {
  check: foundInFile({
    id: 'identity.duplicate-well',
    severity: 'error',
    title: 'two files for one well',
    compares:
      'field and well of this file with those of the other installations; letters and digits only, case ignored',
    why: 'Nobody knows which of the two is set up, and a correction reaches only one of them.',
    mend: 'Keep one file a well: its revisions are kept by version control. Or correct the name that was copied.',
    source: 'the document format',
    example: {
      lift: 'linear',
      fails: {},
      passes: { 'site.well': 'LINEAR-2' },
      beside: {
        'neighbour.yaml':
          'document: installation/1\nsite: { field: Testfield, well: LINEAR }\nlift: linear\nequipment: {}\noperation: { cases: [] }\n',
      },
      at: 'site.well',
    },
  }),
  compare: (own, { sameWell }) => {
    if (sameWell.count === 0) return [];
    const message = `The well ${own.well.written} is also claimed by ${filesOf(sameWell)}. Keep one file a well, or correct the name.`;
    return [
      { at: own.well, message, related: sameWell.first.map((each) => elsewhere(each, each.well, 'the same well')) },
    ];
  },
};

import { NONE } from '../../syntax/tree.ts';
import { present } from '../../values/conditions.ts';
import { optionalText } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check } from '../declare.ts';

const CHECKED = 'revision.checked_by';
const PREPARED = 'revision.prepared_by';

/** One person, however the name is spaced and capitalised. */
function person(name: string | undefined): string {
  return (name ?? '').trim().replace(/\s+/g, ' ').toLowerCase();
}

/** Whether the entry is written at all, be it without a value. */
function isWritten({ evaluation }: CheckContext, key: string): boolean {
  return evaluation.installation.document.tree.find(key) !== NONE;
}

export const REVISION_UNREVIEWED: Check = check({
  id: 'revision.unreviewed',
  severity: 'warning',
  title: 'not checked by a second person',
  compares: 'who checked the revision with who prepared it',
  why: 'Nobody sees the slips of their own pen. A second pair of eyes is the cheapest protection there is.',
  mend: 'Have a second person check the file and enter the name.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [CHECKED]: 'drafting engineer' }, at: CHECKED },
  when: [present('revision')],
  needs: { prepared: optionalText(PREPARED), checked: optionalText(CHECKED) },
  run: ({ prepared, checked }, context) => {
    if (!isWritten(context, CHECKED)) return { lacks: [CHECKED] };
    if (person(checked) === '') {
      return {
        key: CHECKED,
        message:
          "This revision was checked by nobody: 'checked_by' is empty. Have a second person check it, and enter the name.",
      };
    }
    if (person(checked) !== person(prepared)) return undefined;
    return {
      key: CHECKED,
      message: `'${checked}' prepared this revision and checked it. Have another person check it, and enter that name.`,
      related: [{ key: PREPARED, message: 'the same person' }],
    };
  },
});

import { text } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const DATE = 'revision.date';
const ISO_DATE = /^\d{4}-\d{2}-\d{2}/;

export const REVISION_DATE_IN_FUTURE: Check = check({
  id: 'revision.date-in-future',
  severity: 'note',
  title: 'date of the revision in the future',
  compares: 'the date of the revision with the day of the check',
  why: 'The date tells which of two printed copies is the newer one. A slip of the year makes the old one win.',
  mend: 'Correct the date.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [DATE]: '2999-03-14' }, at: DATE },
  needs: { date: text(DATE) },
  run: ({ date }, context) => {
    const day = ISO_DATE.exec(date)?.[0];
    if (day === undefined || day <= context.today) return undefined;
    return {
      key: DATE,
      message: `The revision is dated ${day}, after today, ${context.today}. Correct the date if it is a slip.`,
    };
  },
});

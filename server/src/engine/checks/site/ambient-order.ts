import { present } from '../../values/conditions.ts';
import { entry } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { swapOffer } from '../swap.ts';
import { atMost } from '../within.ts';

const COLDEST = 'site.ambient.min';
const HOTTEST = 'site.ambient.max';

export const SITE_AMBIENT_ORDER: Check = check({
  id: 'site.ambient-order',
  severity: 'error',
  title: 'ambient temperatures in the wrong order',
  compares: 'the lowest with the highest ambient temperature',
  why: 'The drive is derated by the one, the cable is handled by the other: both would go by the wrong one.',
  mend: 'Exchange them, or look for a lost minus sign.',
  source: 'definition',
  example: { lift: 'linear', fails: { [COLDEST]: '45 degC' }, at: COLDEST },
  when: [present(COLDEST), present(HOTTEST)],
  needs: { coldest: entry(COLDEST), hottest: entry(HOTTEST) },
  run: ({ coldest, hottest }, context) =>
    atMost(context, {
      key: COLDEST,
      kind: 'temperature',
      number: coldest,
      limit: hottest,
      says: (own, highest) =>
        `The lowest ambient temperature, ${own}, is above the highest, ${highest}. Exchange them, or look for a lost minus sign.`,
      related: [{ key: HOTTEST, message: 'the highest' }],
      fixes: swapOffer(context, COLDEST, HOTTEST),
    }),
});

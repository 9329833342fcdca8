import { entry, text } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const H2S = 'fluid.h2s';
const MODE = 'setpoints.restart.mode';
const AREA = 'site.hazardous_area';
const UNCLASSIFIED = /^(none|no|non-hazardous|unclassified|safe)\b/i;

const SAID = 'It is said so that nobody overlooks it; the matching cautions and steps stand on the checklist.';

export const SAFETY_CHECKS: readonly Check[] = [
  check({
    id: 'safety.h2s-present',
    severity: 'note',
    title: 'hydrogen sulphide in the well',
    compares: 'the hydrogen sulphide that is entered with none',
    why: `The gas kills at small shares and dulls the nose that should warn. ${SAID}`,
    mend: 'Follow the cautions on the checklist and the rules of the site.',
    source: 'common practice, no source',
    example: { lift: 'linear', fails: { [H2S]: '20 ppm' }, at: H2S },
    needs: { share: entry(H2S) },
    run: ({ share }, context) =>
      share > 0
        ? {
            key: H2S,
            message: `The well has hydrogen sulphide, ${context.show(share, 'ratio', H2S)}. The cautions and steps for it are on the checklist.`,
            value: { number: share, kind: 'ratio' },
            limit: { number: 0, kind: 'ratio' },
          }
        : undefined,
  }),
  check({
    id: 'safety.automatic-restart',
    severity: 'note',
    title: 'the unit restarts by itself',
    compares: 'the mode of the restart with automatic',
    why: `The unit may start at any time while somebody works on it. ${SAID}`,
    mend: 'Isolate and lock out before any work, and post the sign.',
    source: 'common practice, no source',
    example: { lift: 'linear', fails: {}, passes: { [MODE]: 'manual' }, at: MODE },
    needs: { mode: text(MODE) },
    run: ({ mode }) =>
      mode === 'automatic'
        ? {
            key: MODE,
            message:
              'The unit restarts by itself and may start at any time. The sign and the lock-out are on the checklist.',
          }
        : undefined,
  }),
  check({
    id: 'safety.classified-area',
    severity: 'note',
    title: 'classified area',
    compares: 'the classification of the area with none',
    why: `A spark of an instrument or a telephone can set off gas. ${SAID}`,
    mend: 'Bring what is fit for the zone, or work under a permit with gas measurement.',
    source: "the site's own study",
    example: { lift: 'linear', fails: {}, passes: { [AREA]: 'none' }, at: AREA },
    needs: { area: text(AREA) },
    run: ({ area }) =>
      area.trim() === '' || UNCLASSIFIED.test(area.trim())
        ? undefined
        : {
            key: AREA,
            message: `The area is classified as ${area}. The cautions and steps for it are on the checklist.`,
          },
  }),
];

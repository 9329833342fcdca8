import { WITH_TRANSFORMER } from '../../values/conditions.ts';
import { optionalText } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';

const STAR_POINT = 'equipment.transformer.star_point';
const CONNECTION = 'equipment.transformer.secondary_connection';

/** What is wrong with a star point through which a gauge should signal; nothing if it is accessible. */
function faultOf(connection: string | undefined, starPoint: string | undefined): string | undefined {
  if (connection === 'delta') return 'its secondary is a delta, which has none';
  if (starPoint === 'none') return 'it is not brought out';
  return starPoint === 'earthed' ? 'it is earthed, which shorts the signal' : undefined;
}

export const STAR_POINT_CHECK: Check = check({
  id: 'transformer.star-point',
  severity: 'error',
  title: 'gauge without the star point that it signals through',
  compares: 'the way in which the gauge signals with the star point of the transformer’s secondary',
  why: 'A gauge on the power cable is fed and read through the star point. Without it the gauge is dead, or trips on earth fault.',
  mend: 'Take a transformer whose star point is brought out and floating, or a gauge with a conductor of its own.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [STAR_POINT]: 'none' }, at: STAR_POINT },
  when: [
    WITH_TRANSFORMER,
    { path: 'equipment.gauge', present: true },
    { path: 'equipment.gauge.signal', is: ['star_point'] },
  ],
  needs: { connection: optionalText(CONNECTION), starPoint: optionalText(STAR_POINT) },
  run: ({ connection, starPoint }) => {
    const fault = faultOf(connection, starPoint);
    if (fault === undefined) return starPoint === undefined ? { lacks: [STAR_POINT] } : undefined;
    return {
      key: connection === 'delta' ? CONNECTION : STAR_POINT,
      message: `The gauge signals through the star point of the transformer, but ${fault}. ${STAR_POINT_CHECK.mend}`,
      related: [{ key: 'equipment.gauge.signal', message: 'how the gauge signals' }],
    };
  },
});

import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement } from '../declare.ts';
import { type Item, itemsOf } from '../slots.ts';
import { swapOffer } from '../swap.ts';

/** The joints of an item whose least torque is above their greatest; equal is a single value. */
function upsideDown(context: CheckContext, { key, title }: Item): readonly Judgement[] {
  const { evaluation } = context;
  const { installation } = evaluation;
  return (evaluation.rowNodes(`${key}.connections`) ?? []).flatMap((_, at) => {
    const joint = `${key}.connections[${at}]`;
    const least = installation.locate(`${joint}.torque.min`);
    const most = installation.locate(`${joint}.torque.max`);
    const name = installation.locate(`${joint}.name`);
    if (least === undefined || most === undefined) return [];
    const [low, high] = [installation.number(least), installation.number(most)];
    if (!(low > high)) return [];
    const show = (torque: number) => context.show(torque, 'torque', `${joint}.torque.min`);
    return [
      {
        key: `${joint}.torque.min`,
        message: `The joint '${name === undefined ? at + 1 : installation.text(name)}' of ${title} is to be made up with ${show(low)} at least and ${show(high)} at most. Correct the two by the data sheet.`,
        value: { number: low, kind: 'torque' },
        limit: { number: high, kind: 'torque' },
        fixes: swapOffer(context, `${joint}.torque.min`, `${joint}.torque.max`),
      },
    ];
  });
}

const EXAMPLE = 'equipment.motor.connections';

export const CONNECTION_TORQUE_ORDER: Check = check({
  id: 'connection.torque-order',
  severity: 'error',
  title: 'least torque above the greatest',
  compares: 'the least with the greatest make-up torque of each joint',
  why: 'Nobody can make such a joint up: the crew will take a torque of its own.',
  mend: 'Correct the two by the data sheet.',
  source: 'definition',
  example: {
    lift: 'linear',
    fails: { [EXAMPLE]: '[ { name: pothead, joins: motor lead to motor, torque: { min: 22 N.m, max: 18 N.m } } ]' },
    at: `${EXAMPLE}[0].torque.min`,
  },
  needs: {},
  run: (_, context) => itemsOf(context.evaluation).flatMap((item) => upsideDown(context, item)),
});

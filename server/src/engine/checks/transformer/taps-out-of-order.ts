import { WITH_TRANSFORMER } from '../../values/conditions.ts';
import { type PlateTap, TAPS } from '../../values/transformer/tap-window.ts';
import { type Check, check } from '../declare.ts';

const KEY = 'equipment.transformer.taps';

export const TAPS_OUT_OF_ORDER: Check = check({
  id: 'transformer.taps-out-of-order',
  severity: 'warning',
  title: 'taps out of order',
  compares: 'the voltages of the taps along the list, and their numbers with each other',
  why: 'Taps rise or fall along the winding. One that does not is a digit out of place, and it may be the one that is set.',
  mend: 'Compare the list with the plate.',
  source: 'construction of a tapped winding',
  example: {
    lift: 'rotary',
    fails: { [KEY]: '[ { tap: 4, voltage: 1320 V }, { tap: 5, voltage: 1440 V }, { tap: 6, voltage: 1400 V } ]' },
    at: KEY,
  },
  when: [WITH_TRANSFORMER],
  needs: { taps: TAPS },
  run: ({ taps }, context) => {
    const at = firstOutOfOrder(taps);
    const odd = at === undefined ? undefined : taps[at];
    if (odd === undefined) return undefined;
    return {
      key: KEY,
      message: `Tap ${odd.tap} (${context.show(odd.voltage, 'voltage')}) breaks the order of the list: numbers must differ, and voltages rise or fall throughout. Compare it with the plate.`,
      related: [{ key: `${KEY}[${at}].voltage`, message: `tap ${odd.tap}` }],
    };
  },
});

/** The first tap that repeats a number, or that turns against the way of the list from its first tap to its last. */
function firstOutOfOrder(taps: readonly PlateTap[]): number | undefined {
  const way = Math.sign((taps.at(-1)?.voltage ?? 0) - (taps[0]?.voltage ?? 0));
  const at = taps.findIndex(({ tap, voltage }, index) => {
    const before = taps[index - 1];
    const repeats = taps.findIndex((each) => each.tap === tap) < index;
    return repeats || (before !== undefined && Math.sign(voltage - before.voltage) !== way);
  });
  return at < 0 ? undefined : at;
}

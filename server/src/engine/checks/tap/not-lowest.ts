import { WITH_TRANSFORMER } from '../../values/conditions.ts';
import { limit, optionalText, value } from '../../values/declare.ts';
import { lowestTapWithin, TAPS } from '../../values/transformer/tap-window.ts';
import { type Check, check } from '../declare.ts';
import { TAP, tapOffer, VOLTAGE } from './plate.ts';

export const NOT_LOWEST: Check = check({
  id: 'tap.not-lowest',
  severity: 'note',
  title: 'a lower tap would serve',
  compares: 'the tap that is set with the lowest on the plate that is comfortably inside the window',
  why: 'A higher tap than needed asks more current of the drive, and puts more voltage on cable and motor at light load.',
  mend: 'Take the lower tap, unless the higher one is meant for a later duty.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [TAP]: '4', [VOLTAGE]: '1000 V' }, at: TAP },
  when: [WITH_TRANSFORMER],
  needs: {
    taps: TAPS,
    tap: value('transformer.tap_voltage'),
    number: optionalText(TAP),
    least: value('transformer.tap_comfortable'),
    most: value('transformer.tap_max'),
    margin: limit('tap.thin-margin'),
  },
  run: ({ taps, tap, number, least, most, margin }, context) => {
    // A tap above the window is too high, which says more than that a lower one would serve.
    if (tap > most) return undefined;
    const lowest = lowestTapWithin(taps, least, most * (1 - margin));
    if (lowest === undefined || lowest.voltage >= tap) return undefined;
    const show = (voltage: number) => context.show(voltage, 'voltage', VOLTAGE);
    const name = number === undefined ? `The tap of ${show(tap)}` : `Tap ${number} (${show(tap)})`;
    return {
      key: TAP,
      message: `${name} is higher than needed: ${show(least)} serves every case with something to spare, and tap ${lowest.tap} (${show(lowest.voltage)}) is the lowest above it. Take it, unless a later duty needs more.`,
      value: { number: tap, kind: 'voltage' },
      limit: { number: lowest.voltage, kind: 'voltage' },
      fixes: tapOffer(context, lowest),
    };
  },
});

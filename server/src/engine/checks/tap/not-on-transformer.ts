import { listed } from '../../text/words.ts';
import { WITH_TRANSFORMER } from '../../values/conditions.ts';
import { optionalEntry, optionalText } from '../../values/declare.ts';
import { type PlateTap, TAPS } from '../../values/transformer/tap-window.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement } from '../declare.ts';
import { isRatioOf, TAP, tapOffer, VOLTAGE } from './plate.ts';

export const NOT_ON_TRANSFORMER: Check = check({
  id: 'tap.not-on-transformer',
  severity: 'error',
  title: 'tap that the transformer does not have',
  compares: 'the tap that is set with those on the plate; by its voltage where no number is entered',
  why: 'Somebody at the transformer finds no such tap and takes another. It is often the sheet of another transformer.',
  mend: 'Enter a tap that is on the plate, or correct the data sheet.',
  source: 'the transformer’s plate; ratio within 0.5 %, IEC 60076-1 table 1 (from memory)',
  example: { lift: 'linear', fails: { [TAP]: '9' }, at: TAP },
  when: [WITH_TRANSFORMER],
  needs: { taps: TAPS, tap: optionalText(TAP), voltage: optionalEntry(VOLTAGE) },
  run: ({ taps, tap, voltage }, context) => {
    if (tap === undefined && voltage === undefined) return { lacks: [TAP] };
    const ofVoltage = taps.find((each) => isRatioOf(voltage ?? Number.NaN, each.voltage));
    if (tap !== undefined) {
      if (taps.some((each) => each.tap === tap)) return undefined;
      return { ...absent(context, taps, TAP), fixes: ofVoltage === undefined ? [] : tapOffer(context, ofVoltage) };
    }
    return ofVoltage !== undefined ? undefined : absent(context, taps, VOLTAGE);
  },
});

function absent(context: CheckContext, taps: readonly PlateTap[], key: string): Judgement {
  const name = key === TAP ? `Tap ${context.text(TAP)}` : `A tap of ${context.text(VOLTAGE)}`;
  const plate = listed(taps.map(({ tap, voltage }) => `${tap} (${context.show(voltage, 'voltage', VOLTAGE)})`));
  return {
    key,
    message: `${name} is not on the transformer. Its plate lists ${plate}; enter one of these, or correct the data sheet.`,
    related: [{ key: 'equipment.transformer.taps', message: 'the taps on the plate' }],
  };
}

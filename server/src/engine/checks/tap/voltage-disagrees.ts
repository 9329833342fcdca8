import { WITH_TRANSFORMER } from '../../values/conditions.ts';
import { entry, text } from '../../values/declare.ts';
import { TAPS } from '../../values/transformer/tap-window.ts';
import { type Check, check } from '../declare.ts';
import { isRatioOf, TAP, VOLTAGE } from './plate.ts';

export const VOLTAGE_DISAGREES: Check = check({
  id: 'tap.voltage-disagrees',
  severity: 'error',
  title: 'number and voltage of different taps',
  compares: 'the voltage that is entered for the tap with the voltage of that tap on the plate',
  why: 'One crew goes by the number, another by the voltage, and they set different taps. All else here goes by the number.',
  mend: 'Enter number and voltage of the same tap.',
  source: 'the transformer’s plate; ratio within 0.5 %, IEC 60076-1 table 1 (from memory)',
  example: { lift: 'linear', fails: { [VOLTAGE]: '1000 V' }, at: VOLTAGE },
  when: [WITH_TRANSFORMER],
  needs: { taps: TAPS, tap: text(TAP), voltage: entry(VOLTAGE) },
  run: ({ taps, tap, voltage }, context) => {
    const plated = taps.find((each) => each.tap === tap)?.voltage;
    // A tap that the plate does not list is another mistake.
    if (plated === undefined || isRatioOf(voltage, plated)) return undefined;
    const other = taps.find((each) => isRatioOf(voltage, each.voltage))?.tap;
    const show = (number: number) => context.show(number, 'voltage', VOLTAGE);
    const whose = other === undefined ? 'which is of no tap on it' : `which is tap ${other}`;
    const offers = [
      { title: `Write ${show(plated)}, tap ${tap}`, kind: 'offer', key: VOLTAGE, newText: show(plated) } as const,
    ];
    const otherTap =
      other === undefined ? [] : [{ title: `Use tap ${other}`, kind: 'offer', key: TAP, newText: other } as const];
    return {
      key: VOLTAGE,
      message: `Tap ${tap} is ${show(plated)} on the plate, and ${show(voltage)} is entered for it, ${whose}. Enter number and voltage of the same tap.`,
      value: { number: voltage, kind: 'voltage' },
      limit: { number: plated, kind: 'voltage' },
      related: [
        { key: TAP, message: 'the tap' },
        { key: 'equipment.transformer.taps', message: 'the taps on the plate' },
      ],
      fixes: [...offers, ...otherTap],
    };
  },
});

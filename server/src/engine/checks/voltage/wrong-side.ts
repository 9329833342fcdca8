import { switchedOn, WITH_TRANSFORMER } from '../../values/conditions.ts';
import { entry, limit, text, value } from '../../values/declare.ts';
import { type Check, checkOfParts, part } from '../declare.ts';
import { keyOf, PROTECTIONS } from '../protection/table.ts';

export const VOLTAGE_WRONG_SIDE: Check = checkOfParts(
  {
    id: 'voltage.wrong-side',
    severity: 'warning',
    title: 'voltage trip for the other side of the transformer',
    compares:
      'overvoltage and undervoltage trip with the supply and with the transformer secondary: far from the voltage of ' +
      'the side that is stated, close to that of the other',
    why: 'A trip for the other voltage never acts, or never lets the unit start.',
    mend: "State the side that is measured, under 'side', or enter the trip for the side that is stated.",
    source: 'logic of limits',
    example: {
      lift: 'linear',
      fails: { 'setpoints.protection.overvoltage.trip': '990 V' },
      at: keyOf('overvoltage.trip'),
    },
  },
  PROTECTIONS.filter(({ kind }) => kind === 'voltage').map(({ name, title }) => {
    const key = `${keyOf(name)}.trip`;
    return part({
      when: [...switchedOn(name), WITH_TRANSFORMER],
      needs: {
        trip: entry(key),
        side: text(`${keyOf(name)}.side`, 'supply'),
        supply: entry('supply.voltage'),
        secondary: value('transformer.tap_voltage'),
        most: limit('voltage.trip-useless'),
      },
      run: ({ trip, side, supply, secondary, most }, context) => {
        const fits = (base: number) => Math.abs(trip / base - 1) <= most;
        // The drive's output lies on the supply's side of the transformer.
        const [stated, other] = side === 'motor' ? [secondary, supply] : [supply, secondary];
        if (fits(stated) || !fits(other)) return undefined;
        const show = (voltage: number) => context.show(voltage, 'voltage', key);
        const [here, there] = side === 'motor' ? ['the secondary', 'the supply'] : ['the supply', 'the secondary'];
        return {
          key,
          message: `The ${title} trip of ${show(trip)} does not fit ${here}, ${show(stated)}, and fits ${there}, ${show(other)}. Say which side is measured, or enter the trip for ${here}.`,
          value: { number: trip, kind: 'voltage' },
          limit: { number: stated, kind: 'voltage' },
        };
      },
    });
  }),
);

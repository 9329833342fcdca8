import { switchedOn } from '../../values/conditions.ts';
import { type Check, checkOfParts, part } from '../declare.ts';
import { keyOf, PROTECTIONS } from './table.ts';

const MUST_STOP = ['overload', 'short_circuit', 'earth_fault', 'wellhead_pressure_high'];

export const PROTECTION_WARNS_ONLY: Check = checkOfParts(
  {
    id: 'protection.warns-only',
    severity: 'error',
    title: 'protection that only warns of what must stop the unit',
    compares: 'the response of overload, short-circuit, earth-fault and high-wellhead-pressure protection',
    why: 'By the time that somebody reads the warning, the motor has burnt, the fault has spread or the line has burst.',
    mend: "Set the response to 'stop', or leave it out.",
    source: 'common practice, no source',
    example: {
      lift: 'linear',
      fails: { 'setpoints.protection.earth_fault.response': 'warn_only' },
      at: keyOf('earth_fault.response'),
    },
  },
  PROTECTIONS.filter(({ name }) => MUST_STOP.includes(name)).map(({ name, title }) =>
    part({
      when: switchedOn(name),
      needs: {},
      run: (_, context) => {
        const key = `${keyOf(name)}.response`;
        if (context.text(key) !== 'warn_only') return undefined;
        const message = `The ${title} protection only warns, and the unit runs on. It has to stop the unit.`;
        return { key, message, fixes: [{ title: 'Stop the unit', kind: 'offer', key, newText: 'stop' }] };
      },
    }),
  ),
);

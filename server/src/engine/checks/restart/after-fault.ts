import { isPresent, optionalRows } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { PROTECTIONS } from '../protection/table.ts';
import { AUTOMATIC, RESTART } from './inputs.ts';

const AFTER = `${RESTART}.after`;

/** What happens when the unit restarts by itself after a trip that a person has to look at first. */
const REASONS: Readonly<Record<string, string>> = {
  short_circuit: 'each start feeds the fault again',
  earth_fault: 'each start feeds the fault again',
  overload: 'the motor is hot and what overloaded it is still there',
  locked_rotor: 'the motor is hot and what holds it is still there',
  stall: 'the motor is hot and what holds it is still there',
  motor_temperature_high: 'the motor is hot and what heated it is still there',
  wellhead_pressure_high: 'it pumps against the same closed valve again, with people at the wellhead perhaps',
};

export const RESTART_AFTER_SHORT_CIRCUIT: Check = check({
  id: 'restart.after-short-circuit',
  severity: 'error',
  title: 'automatic restart after a fault',
  compares:
    'the trips that the unit restarts after by itself with those that a person has to look at first: short circuit, ' +
    'earth fault, overload, locked rotor, stall, motor temperature and high wellhead pressure',
  why: 'The fault is still there. Each restart makes it worse, and nobody expects the unit to start.',
  mend: 'Take it out of the list: these trips ask for a person at the well.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [AFTER]: '[underload, short_circuit]' }, at: `${AFTER}[1]` },
  when: [AUTOMATIC],
  needs: { isListed: isPresent(AFTER), rows: optionalRows(AFTER, { '': 'text' }) },
  run: ({ isListed, rows = [] }) => {
    if (!isListed) return { lacks: [AFTER] };
    return rows.flatMap(({ '': name }, index) => {
      const reason = Object.hasOwn(REASONS, name) ? REASONS[name] : undefined;
      if (reason === undefined) return [];
      const title = PROTECTIONS.find((each) => each.name === name)?.title ?? name;
      const message = `The unit restarts by itself after a ${title} trip: ${reason}. Take '${name}' out of the list.`;
      return [{ key: `${AFTER}[${index}]`, message }];
    });
  },
});

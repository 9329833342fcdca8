import { NO_WORDS, present } from '../../values/conditions.ts';
import { entry, optionalEntry, optionalText, type Seen, text, value } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, checkOfParts, type Part, part, type Verdict } from '../declare.ts';
import { keyOf } from '../protection/table.ts';
import { reaches } from '../reaches.ts';
import { atMost } from '../within.ts';

const WELLHEAD = keyOf('wellhead_pressure_high');
const DISCHARGE = keyOf('discharge_pressure_high');

const NEEDS = {
  atPump: value('pump.closed_valve_pressure'),
  atWellhead: value('pump.closed_valve_wellhead_pressure'),
  lift: text('lift'),
  strokeRate: optionalEntry('operation.stroke.rate', 'stroke_rate'),
  wellheadTrip: optionalEntry(`${WELLHEAD}.trip`),
  wellheadDelay: optionalEntry(`${WELLHEAD}.delay`),
  wellheadEnabled: optionalText(`${WELLHEAD}.enabled`),
  wellheadResponse: optionalText(`${WELLHEAD}.response`),
  dischargeTrip: optionalEntry(`${DISCHARGE}.trip`),
  dischargeDelay: optionalEntry(`${DISCHARGE}.delay`),
  dischargeEnabled: optionalText(`${DISCHARGE}.enabled`),
  dischargeResponse: optionalText(`${DISCHARGE}.response`),
};
type Shut = Seen<typeof NEEDS>;

/** A trip that could stop the unit before the rating is reached. */
interface Stop {
  readonly key: string;
  /** Pressure at the rated place when it acts, Pa absolute. */
  readonly trip: number | undefined;
  readonly delay: number | undefined;
  readonly enabled: string | undefined;
  readonly response: string | undefined;
}

/** Both trips, brought to a place by the column of liquid between. */
function stopsAt(shut: Shut, place: 'pump' | 'wellhead'): readonly Stop[] {
  const column = shut.atPump - shut.atWellhead;
  const moved = (trip: number | undefined, by: number) => (trip === undefined ? undefined : trip + by);
  return [
    {
      key: WELLHEAD,
      trip: moved(shut.wellheadTrip, place === 'pump' ? column : 0),
      delay: shut.wellheadDelay,
      enabled: shut.wellheadEnabled,
      response: shut.wellheadResponse,
    },
    {
      key: DISCHARGE,
      trip: moved(shut.dischargeTrip, place === 'pump' ? 0 : -column),
      delay: shut.dischargeDelay,
      enabled: shut.dischargeEnabled,
      response: shut.dischargeResponse,
    },
  ];
}

function actsBelow(rating: number, { trip, enabled, response }: Stop): boolean {
  const isOn = trip !== undefined && !NO_WORDS.includes(enabled ?? '') && response !== 'warn_only';
  return isOn && reaches(rating, trip);
}

/** A plunger builds its whole pressure in one stroke; a rotary pump cannot pass its shut-off head however long it runs. */
function isInTime({ lift, strokeRate }: Shut, delay: number | undefined): boolean {
  if (lift === 'rotary') return true;
  return delay !== undefined && strokeRate !== undefined && reaches(1 / strokeRate, delay);
}

function judge(context: CheckContext, shut: Shut, rated: Rated, rating: number): Verdict {
  const stops = stopsAt(shut, rated.place).filter((stop) => actsBelow(rating, stop));
  if (stops.some(({ delay }) => isInTime(shut, delay))) return undefined;
  const undelayed = stops.find(({ delay }) => delay === undefined);
  const pressure = rated.place === 'pump' ? shut.atPump : shut.atWellhead;
  if (undelayed !== undefined && !reaches(rating, pressure)) return { lacks: [`${undelayed.key}.delay`] };
  const [late] = stops;
  return atMost(context, {
    key: rated.key,
    kind: 'pressure',
    number: pressure,
    limit: rating,
    says: (own, most) =>
      `Against a closed valve the pump brings ${rated.words} to ${own} (case '${context.caseName}'), and it is rated ${most}. ${late === undefined ? 'Set a high wellhead- or discharge-pressure trip below the rating' : 'The trip below the rating acts later than within a stroke: shorten its delay'}, or lower what the pump can give.`,
    related: late === undefined ? [] : [{ key: `${late.key}.delay`, message: 'acts too late' }],
  });
}

interface Rated {
  readonly key: string;
  readonly place: 'pump' | 'wellhead';
  readonly words: string;
}

function against(rated: Rated): Part {
  return part({
    when: [present(rated.key)],
    needs: { ...NEEDS, rating: entry(rated.key) },
    run: ({ rating, ...shut }, context) => judge(context, shut, rated, rating),
  });
}

const WELLHEAD_RATING = 'well.wellhead.pressure_rating';

export const PUMP_CLOSED_VALVE_PRESSURE: Check = checkOfParts(
  {
    id: 'pump.closed-valve-pressure',
    severity: 'error',
    title: 'a closed valve bursts tubing or wellhead',
    compares:
      'the pressure that the pump builds against a closed valve with the rating of the tubing, and less the ' +
      'column with that of ' +
      'the wellhead, unless a high wellhead- or discharge-pressure trip stops it below the rating, with a linear ' +
      'pump within a stroke',
    why: 'A plunger has no shut-off head: it pushes until something gives. Somebody closes that valve one day.',
    mend: 'Set a pressure trip below the rating; for a plunger with a delay of less than a stroke.',
    source: 'balance of forces on the plunger; shut-off head by the affinity laws',
    example: { lift: 'linear', fails: { [WELLHEAD]: null, [WELLHEAD_RATING]: '70 bar' }, at: WELLHEAD_RATING },
  },
  [
    against({ key: 'well.tubing.pressure_rating', place: 'pump', words: 'the tubing' }),
    against({ key: WELLHEAD_RATING, place: 'wellhead', words: 'the wellhead' }),
  ],
);

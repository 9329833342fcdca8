import type { CheckTexts } from '../findings/texts.ts';
import { DIRECT_ON_LINE, present, WITH_DRIVE } from '../values/conditions.ts';
import { limit, optionalValue, value } from '../values/declare.ts';
import type { Evaluation } from '../values/evaluation.ts';
import { lowestTapWithin, type PlateTap, TAPS } from '../values/transformer/tap-window.ts';
import { type Beyond, type Bound, bound, type Diagnosis, recommend, type Window, type WindowEnds } from './declare.ts';
import { meantByRoot3 } from './root3.ts';

const CIRCUIT = 'circuit of motor, cable and transformer, any machines text';
const TAP_KEY = 'setpoints.transformer.tap';
const VOLTAGE_KEY = 'setpoints.transformer.voltage';

const belowWindow: CheckTexts = {
  id: 'tap.below-window',
  severity: 'error',
  title: 'transformer tap too low',
  compares:
    'the voltage of the tap with the least that serves every case, at the low end of the supply; on the line, with the ' +
    'least at which the motor still has 90 % of its voltage there',
  why: 'The motor gets too little voltage: it draws more current or stalls, and the drive runs out of voltage.',
  mend: 'Take a higher tap inside the window.',
  source: `${CIRCUIT}; NEMA MG-1 12.44, ± 10 % for motors in general (from memory)`,
  example: { lift: 'linear', fails: { [TAP_KEY]: '2', [VOLTAGE_KEY]: '800 V' }, at: TAP_KEY },
};
const filterDrop: CheckTexts = {
  id: 'tap.filter-drop',
  severity: 'warning',
  title: 'transformer tap that leaves nothing for the output filter',
  compares:
    'the voltage of the tap with the least that serves every case when the drive’s output filter has taken its drop, at ' +
    'the low end of the supply',
  why: 'The filter’s drop is missing at the motor just when the supply sags: the drive is out of voltage.',
  mend: 'Take the next tap up that lies inside the window.',
  source: `${CIRCUIT}; the filter’s drop is taken in phase with the output, the safe side`,
  example: {
    lift: 'rotary',
    fails: {
      'equipment.drive.filter_voltage_drop': '9 %',
      'equipment.transformer.taps': '[ { tap: 5, voltage: 1400 V } ]',
      [VOLTAGE_KEY]: '1400 V',
    },
    at: TAP_KEY,
  },
};
const aboveWindow: CheckTexts = {
  id: 'tap.above-window',
  severity: 'error',
  title: 'transformer tap too high',
  compares: 'the voltage of the tap with the most that drive, windings, insulation and motor allow',
  why: 'The drive or the winding is overloaded, or insulation and motor get more voltage than they are made for.',
  mend: 'Take a lower tap inside the window.',
  source: CIRCUIT,
  example: {
    lift: 'linear',
    fails: { [TAP_KEY]: '7', [VOLTAGE_KEY]: '1300 V', 'equipment.drive.output_current': '38 A' },
    at: TAP_KEY,
  },
};
const thinMargin: CheckTexts = {
  id: 'tap.thin-margin',
  severity: 'warning',
  title: 'transformer tap close to an end of its window',
  compares: 'the voltage of the tap with the ends of its window',
  why: 'A little more load, heat or sag of the supply puts the tap outside.',
  mend: 'Take the next tap towards the middle of the window if there is one.',
  source: 'common practice, no source',
  example: {
    lift: 'rotary',
    fails: { 'equipment.transformer.taps': '[ { tap: 5, voltage: 1345 V } ]', [VOLTAGE_KEY]: '1345 V' },
    at: TAP_KEY,
  },
};
const noWindow: CheckTexts = {
  id: 'tap.no-window',
  severity: 'error',
  title: 'no tap can serve',
  compares: 'the least tap voltage that serves with the most that is allowed, and both with the taps on the plate',
  why: 'Whatever tap is chosen, something stands against it: transformer, drive and cable do not suit the load.',
  mend: 'Look at the two bounds: a thicker cable, another transformer or drive, or a lighter duty.',
  source: CIRCUIT,
  example: { lift: 'linear', fails: { 'equipment.drive.output_current': '20 A' }, at: TAP_KEY },
};
const phaseVoltage: CheckTexts = {
  id: 'tap.phase-voltage',
  severity: 'error',
  title: 'tap voltage that is off by the square root of three',
  compares: 'the voltage of the tap, times and over √3, with the window that it is outside of',
  why:
    'A plate that lists phase voltages, or a winding linked in delta where wye was meant, puts every tap off by √3: ' +
    'the motor gets 58 % of its voltage, or 173 %.',
  mend: 'Find out whether the plate gives line or phase voltage and how the secondary is linked; enter line voltage.',
  source: 'three-phase circuit: line voltage is √3 times phase voltage in wye',
  example: {
    lift: 'rotary',
    fails: {
      'equipment.transformer.taps':
        '[ { tap: 4, voltage: 762 V }, { tap: 5, voltage: 831 V }, { tap: 6, voltage: 901 V } ]',
      [VOLTAGE_KEY]: '831 V',
    },
    at: TAP_KEY,
  },
};

/** What somebody mistook who set a tap that √3 would bring inside. */
function explainByRoot3(
  tap: number,
  { hardLower, hardUpper }: WindowEnds,
  show: (number: number) => string,
): string | undefined {
  const meant = meantByRoot3(tap, hardLower, hardUpper);
  if (meant === undefined) return undefined;
  const way = meant > tap ? 'times' : 'divided by';
  const mistake = meant > tap ? 'phase voltage for line voltage' : 'a delta for a wye';
  return (
    `The tap’s ${show(tap)} is outside of its window, and ${way} √3 it is ${show(meant)}, which serves: ` +
    `that is ${mistake}. ${phaseVoltage.mend}`
  );
}

const ROOT3_MISTAKE: Diagnosis = { check: phaseVoltage, explain: explainByRoot3 };

/** The taps as the plate lists them; none if it cannot be read. */
export function platedTaps(evaluation: Evaluation): readonly PlateTap[] {
  return evaluation.readRows(TAPS) ?? [];
}

/** The voltages to choose from, if the plate can be read. */
function platedVoltages(evaluation: Evaluation): readonly number[] | undefined {
  const taps = platedTaps(evaluation);
  return taps.length === 0 ? undefined : taps.map(({ voltage }) => voltage);
}

const short = ({ subject, apart, limit: least, inCase }: Beyond) =>
  `${subject} is ${apart} short: at least ${least} is needed${inCase}.`;

/** One of the limits from above; the check is the same, what binds is not. */
function upper(binding: string, id: string, limitName: string, consequence: string): Bound {
  return bound({
    check: aboveWindow,
    id: `tap.above-window.${binding}`,
    side: 'upper',
    hard: true,
    kind: 'voltage',
    limitName,
    consequence,
    formula: id,
    inputs: { number: value(id) },
    compute: ({ number }) => number,
  });
}

export const TAP: Window = {
  setpoint: TAP_KEY,
  title: 'the tap',
  kind: 'voltage',
  compared: value('transformer.tap_voltage'),
  when: [{ path: 'equipment.transformer', present: true }],
  emptiness: noWindow,
  diagnosis: ROOT3_MISTAKE,
  choices: platedVoltages,
  named: (shown, text) => {
    const tap = text(TAP_KEY);
    return tap === '' ? `The tap of ${shown}` : `Tap ${tap} (${shown})`;
  },
  choice: (evaluation, recommended) => {
    const plate = platedTaps(evaluation).find(({ voltage }) => voltage === recommended);
    if (plate === undefined) return undefined;
    const voltage = `${Math.round(recommended)} V`;
    const least = evaluation.number('transformer.tap_min', 0) ?? Number.NaN;
    const isOnlyForSpare = platedTaps(evaluation).some((each) => each.voltage >= least && each.voltage < recommended);
    return {
      words: `tap ${plate.tap} (${voltage})`,
      because: `is the lowest that serves${isOnlyForSpare ? ' with something to spare' : ''}`,
      entries: [
        { key: TAP_KEY, newText: plate.tap },
        { key: VOLTAGE_KEY, newText: voltage },
      ],
    };
  },
  bounds: [
    bound({
      check: belowWindow,
      side: 'lower',
      hard: true,
      kind: 'voltage',
      limitName: 'the least tap voltage that serves',
      consequence: 'the motor would get too little voltage',
      when: [WITH_DRIVE],
      says: short,
      formula: 'tap_min',
      inputs: { number: value('transformer.tap_need') },
      compute: ({ number }) => ({ number, supply: 'low' }),
    }),
    bound({
      check: belowWindow,
      id: 'tap.below-window.on-the-line',
      side: 'lower',
      hard: true,
      kind: 'voltage',
      limitName: 'the least tap voltage with which the motor runs at the low end of the supply',
      consequence: 'the motor would get less than 90 % of its voltage',
      when: [DIRECT_ON_LINE],
      says: short,
      formula: 'emf for 0.9·V_m at I/0.9, times V_1/lowest voltage of the supply',
      inputs: { number: value('transformer.tap_need_on_the_line') },
      compute: ({ number }) => ({ number, supply: 'low' }),
    }),
    upper(
      'drive-current',
      'transformer.tap_limit_drive_current',
      'the tap voltage at which the drive’s current is used up',
      'the drive would be overloaded',
    ),
    upper(
      'winding-current',
      'transformer.tap_limit_winding_current',
      'the tap voltage at which the winding’s current is used up',
      'the winding would be overloaded',
    ),
    upper(
      'voltage-class',
      'transformer.tap_limit_voltage_class',
      'the tap voltage at which the lowest voltage class is reached',
      'the insulation would get more voltage than its class',
    ),
    upper(
      'light-load',
      'transformer.tap_limit_light_load',
      'the tap voltage at which a lightly loaded motor gets 10 % too much',
      'the motor would get too much voltage at light load',
    ),
    bound({
      check: thinMargin,
      id: 'tap.thin-margin.low',
      side: 'lower',
      hard: false,
      kind: 'voltage',
      limitName: 'the low end of the window with a margin',
      consequence: 'a little more load or sag puts it outside',
      when: [WITH_DRIVE],
      formula: 'tap_min·(1 + margin)',
      inputs: { least: value('transformer.tap_min'), margin: limit('tap.thin-margin') },
      compute: ({ least, margin }) => least * (1 + margin),
    }),
    bound({
      check: filterDrop,
      side: 'lower',
      hard: false,
      kind: 'voltage',
      limitName: 'the least tap voltage that serves behind the output filter',
      consequence: 'at the low end of the supply the filter’s drop is missing at the motor',
      when: [WITH_DRIVE, present('equipment.drive.filter_voltage_drop')],
      formula: 'tap_min with the output less the filter’s drop',
      inputs: { number: value('transformer.tap_need_behind_filter') },
      compute: ({ number }) => ({ number, supply: 'low' }),
    }),
    bound({
      check: thinMargin,
      id: 'tap.thin-margin.high',
      side: 'upper',
      hard: false,
      kind: 'voltage',
      limitName: 'the high end of the window with a margin',
      consequence: 'a little more load puts it outside',
      formula: 'tap_max·(1 − margin)',
      inputs: { most: value('transformer.tap_max'), margin: limit('tap.thin-margin') },
      compute: ({ most, margin }) => most * (1 - margin),
    }),
  ],
  recommendation: recommend({
    rule: 'the lowest tap on the plate that serves with something to spare; if there is none, the lowest inside the window',
    inputs: {
      taps: TAPS,
      low: optionalValue('transformer.tap_comfortable'),
      high: optionalValue('transformer.tap_max'),
    },
    choose: ({ taps, low, high }, { hardLower, hardUpper, upper }) => {
      if (low === undefined || high === undefined) return Number.NaN;
      const tap = lowestTapWithin(taps, low, upper) ?? lowestTapWithin(taps, hardLower, hardUpper);
      return tap?.voltage ?? Number.NaN;
    },
  }),
};

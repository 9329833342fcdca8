import type { Measure } from '../findings/finding.ts';
import { throughCable, throughLead } from './expected-resistance.ts';
import type { Facts } from './facts.ts';
import { itemsOf } from './items.ts';
import { shown } from './notation.ts';
import { testsOf } from './sheet-tests.ts';
import { only, read, type Step, slugs } from './step.ts';

const FIELDS = ['number', 'calibrated until'];

/** The instruments that the tests on this sheet need, with the ranges that follow from them. */
export function instruments(facts: Facts): readonly Step[] {
  const bring = (name: string, text: string, note: string) =>
    read(`before_leaving.instruments.${name}`, `Take ${text}.`, { fields: FIELDS, note });
  return [
    bring('insulation_tester', 'the insulation tester', insulationRange(facts)),
    bring('ohmmeter', 'the low-resistance ohmmeter', resistanceRange(facts)),
    bring('voltage_detector', 'the voltage detector and a source to try it on', voltageRange(facts)),
    bring('multimeter', 'the multimeter', `True rms. ${voltageRange(facts)}`),
    bring('clamp', 'the clamp-on ammeter', currentRange(facts)),
    bring(
      'phase_sequence',
      'the phase-sequence indicator',
      `For ${facts.show('supply.voltage') ?? 'the supply voltage'}.`,
    ),
    bring('earth_tester', 'the earth-resistance tester', 'Reads from below 1 ohm up.'),
    bring(
      'thermometer',
      'the thermometer',
      `From ${facts.show('site.ambient.min') ?? 'the coldest'} to ${facts.show('site.ambient.max') ?? 'the hottest'} air of the site.`,
    ),
    bring('pressure_gauge', 'the pressure gauges for tubing and casing', pressureRange(facts)),
    bring(
      'gas_detector',
      'the gas detector',
      facts.hasSour
        ? 'For combustible gas and for H2S, alarms tried today.'
        : 'For combustible gas, alarm tried today.',
    ),
    ...only(facts.isLinear, bring('stopwatch', 'a stopwatch', 'To count strokes against the set rate.')),
    ...fromSheets(facts),
  ];
}

// An eye has no number and no calibration.
const BY_EYE = /^(by eye|visual)/i;

/** Instruments that the data sheets name, each once, with the tests that they are for. */
function fromSheets(facts: Facts): readonly Step[] {
  const uses = new Map<string, string[]>();
  for (const item of itemsOf(facts)) {
    for (const { instrument, name } of testsOf(facts, item)) {
      if (instrument !== undefined && !BY_EYE.test(instrument))
        uses.set(instrument, [...(uses.get(instrument) ?? []), `${item.title}, ${name}`]);
    }
  }
  const names = slugs([...uses.keys()]);
  return [...uses].map(([instrument, tests], index) =>
    read(`before_leaving.instruments.sheet_${names[index]}`, `Take what the data sheets ask for: ${instrument}.`, {
      fields: FIELDS,
      note: `For ${tests.join('; ')}.`,
    }),
  );
}

function insulationRange(facts: Facts): string {
  const tests = itemsOf(facts)
    .flatMap((item) => testsOf(facts, item))
    .filter(({ nature }) => nature === 'insulation');
  const voltages = unique(tests.flatMap(({ voltage }) => voltage ?? []));
  const limits = unique(tests.flatMap(({ min }) => min ?? []));
  if (voltages.length === 0)
    return "Test voltages are not known: enter 'test_voltage' at the insulation tests in the data sheets.";
  const beyond = limits.length === 0 ? '' : `, reading well beyond ${limits.join(' and ')}`;
  return `Direct test voltage ${voltages.join(' and ')}${beyond}.`;
}

function resistanceRange(facts: Facts): string {
  const ends = [throughLead(facts), throughCable(facts)].flatMap((each) => (each === undefined ? [] : [each.ohms]));
  if (ends.length === 0) return "The range is not known: enter 'equipment.motor.phase_resistance'.";
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const ohms = (number: number) => facts.showNumber(number, 'resistance', 'equipment.motor.phase_resistance');
  const range = least === most ? ohms(least) : `${ohms(least)} to ${ohms(most)}`;
  return `Four-wire, 1 % or better at ${range}.`;
}

function voltageRange(facts: Facts): string {
  const keys = [
    'setpoints.transformer.voltage',
    'supply.voltage',
    'equipment.motor.voltage',
    'equipment.transformer.primary_voltage',
  ];
  const volts = keys.flatMap((key) => facts.number(key) ?? []);
  if (volts.length === 0)
    return "The voltage is not known: enter 'supply.voltage' and 'setpoints.transformer.voltage'.";
  return `Rated for ${facts.showNumber(Math.max(...volts), 'voltage')} and more, in the right category.`;
}

function currentRange(facts: Facts): string {
  const amps = facts.caseNames.flatMap((_, at) =>
    ['drive.output_current', 'motor.current'].flatMap((id) => facts.value(id, at)?.number ?? []),
  );
  const lowest = facts.show('setpoints.drive.min_frequency');
  const low = lowest === undefined ? '' : ` It must read true down to ${lowest}.`;
  if (amps.length === 0) return `The range is not known: the currents of the cases cannot be computed.${low}`;
  return `Up to at least ${facts.showNumber(1.5 * Math.max(...amps), 'current')}.${low}`;
}

function pressureRange(facts: Facts): string {
  const rating = facts.show('well.wellhead.pressure_rating');
  return rating === undefined
    ? "The range is not known: enter 'well.wellhead.pressure_rating'."
    : `Up to the wellhead’s rating, ${rating}.`;
}

function unique(measures: readonly Measure[]): readonly string[] {
  return [...new Set(measures.map(shown))];
}

import { absent, COLD_CABLE, present } from '../conditions.ts';
import { declareValue, entry, method, optionalRows, rows, type ValueDeclaration, value, valueBy } from '../declare.ts';
import { temperatureFactor } from '../electrical/conductor.ts';
import { SURVEY_COLUMNS } from '../well/depths.ts';
import { meanDepthFraction } from '../well/survey.ts';
import {
  conductorRise,
  DEFAULT_INDUCTANCE,
  LEAD,
  meanAlong,
  RATED_LEAD,
  RATED_SECTIONS,
  type RatedSection,
  resistance20,
  SECTIONS,
  totalLength,
} from './inputs.ts';

const MOTOR_LEAD = 'equipment.cable.motor_lead';
const RESISTANCE_SOURCE =
  'data sheet, else IEC 60228 class 2 plain copper, else ASTM B258 diameter with 0.017241 ohm.mm2/m and 2 % lay';
const COPPER = 'copper, 0.00393 /K at 20 degC (IEC 60028)';
const NO_STANDARD = 'the conductor has neither a resistance on its sheet nor a standard size';
/** A lead that is entered and cannot be read must not count as absent. */
const WITHOUT_LEAD = method({
  when: [absent(MOTOR_LEAD)],
  formula: '0',
  source: 'the entry itself',
  inputs: {},
  assumes: 'no motor lead in the circuit: none is entered',
  compute: () => 0,
});

const WELL = {
  bottom: value('intake.temperature'),
  md: entry('well.intake.md'),
  survey: optionalRows('well.survey', SURVEY_COLUMNS),
};

/** Mean temperature of the well along the hole, from the top to the intake, degC. */
function meanWellTemperature(
  top: number,
  { bottom, md, survey }: { bottom: number; md: number; survey: Parameters<typeof meanDepthFraction>[0] | undefined },
): number {
  const share = survey === undefined ? 0.5 : meanDepthFraction(survey, md);
  return top + (bottom - top) * share;
}

/** Rise of the section that hangs at the intake, K. */
function riseAt(section: RatedSection | undefined, current: number): number {
  return section === undefined ? Number.NaN : conductorRise(section, current);
}

export const CABLE_RESISTANCE: readonly ValueDeclaration[] = [
  declareValue({
    id: 'cable.main_length',
    title: 'length of the main cable',
    kind: 'length',
    formula: 'Σ length of the sections',
    source: 'geometry',
    inputs: { sections: SECTIONS },
    compute: ({ sections }) => totalLength(sections),
  }),
  valueBy('cable.lead_length', 'length of the motor lead', 'length', [
    method({
      when: [present(MOTOR_LEAD)],
      formula: 'as entered',
      source: 'the entry itself',
      inputs: { lead: LEAD },
      compute: ({ lead }) => totalLength(lead),
    }),
    WITHOUT_LEAD,
  ]),
  declareValue({
    id: 'cable.resistance_20',
    title: 'resistance of the main cable at 20 degC, per length',
    kind: 'resistance_per_length',
    formula: 'as on the sheet, else the standard’s',
    source: RESISTANCE_SOURCE,
    inputs: { sections: SECTIONS },
    without: NO_STANDARD,
    compute: ({ sections }) => meanAlong(sections, resistance20),
  }),
  valueBy('cable.conductor_temperature', 'mean temperature of the cable’s conductor', 'temperature', [
    method({
      when: [COLD_CABLE],
      formula: 'mean of surface and intake temperature along the hole, no rise',
      source: 'linear profile (common practice, no source)',
      inputs: { ...WELL, top: entry('well.surface_temperature') },
      compute: ({ top, ...well }) => meanWellTemperature(top, well),
    }),
    method({
      formula: 'mean of top and intake temperature along the hole + rise·(I/I_ampacity)²',
      source: 'linear profile, heating in proportion to the square of the current (common practice, no source)',
      inputs: {
        ...WELL,
        top: value('well.top_temperature'),
        current: value('motor.current'),
        sections: RATED_SECTIONS,
      },
      compute: ({ top, current, sections, ...well }) =>
        meanWellTemperature(top, well) + meanAlong(sections, (section) => conductorRise(section, current)),
    }),
  ]),
  valueBy('cable.hottest_temperature', 'conductor temperature at the intake', 'temperature', [
    method({
      when: [COLD_CABLE],
      formula: 'intake temperature, no rise',
      source: 'a cable without current',
      inputs: { bottom: value('intake.temperature') },
      compute: ({ bottom }) => bottom,
    }),
    method({
      formula: 'T_intake + rise·(I/I_ampacity)²',
      source: 'heating in proportion to the square of the current (common practice, no source)',
      inputs: { bottom: value('intake.temperature'), current: value('motor.current'), sections: RATED_SECTIONS },
      compute: ({ bottom, current, sections }) => bottom + riseAt(sections.at(-1), current),
    }),
  ]),
  valueBy('cable.lead_temperature', 'conductor temperature of the motor lead', 'temperature', [
    method({
      when: [COLD_CABLE],
      formula: 'intake temperature, no rise',
      source: 'a lead without current',
      inputs: { bottom: value('intake.temperature') },
      compute: ({ bottom }) => bottom,
    }),
    method({
      when: [present(MOTOR_LEAD)],
      formula: 'T_intake + rise·(I/I_ampacity)²',
      source: 'heating in proportion to the square of the current (common practice, no source)',
      inputs: { bottom: value('intake.temperature'), current: value('motor.current'), lead: RATED_LEAD },
      compute: ({ bottom, current, lead }) => bottom + meanAlong(lead, (section) => conductorRise(section, current)),
    }),
  ]),
  valueBy('cable.lead_resistance', 'resistance of the motor lead, per phase', 'resistance', [
    method({
      when: [present(MOTOR_LEAD)],
      formula: 'length·r_20·[1 + 0.00393·(T_lead − 20)]',
      source: COPPER,
      inputs: { lead: LEAD, temperature: value('cable.lead_temperature') },
      without: NO_STANDARD,
      compute: ({ lead, temperature }) =>
        totalLength(lead) * meanAlong(lead, resistance20) * temperatureFactor(temperature),
    }),
    WITHOUT_LEAD,
  ]),
  declareValue({
    id: 'cable.resistance',
    title: 'resistance of cable and lead, per phase',
    kind: 'resistance',
    formula: 'Σ length·r_20·[1 + 0.00393·(T − 20)], the lead at its own temperature',
    source: COPPER,
    inputs: {
      length: value('cable.main_length'),
      perLength: value('cable.resistance_20'),
      temperature: value('cable.conductor_temperature'),
      lead: value('cable.lead_resistance'),
    },
    compute: ({ length, perLength, temperature, lead }) => length * perLength * temperatureFactor(temperature) + lead,
  }),
  valueBy('cable.lead_inductance', 'inductance of the motor lead, per phase', 'inductance', [
    method({
      when: [present(`${MOTOR_LEAD}.inductance`)],
      formula: 'length·inductance',
      source: 'data sheet',
      inputs: { length: value('cable.lead_length'), inductance: entry(`${MOTOR_LEAD}.inductance`) },
      compute: ({ length, inductance }) => length * inductance,
    }),
    method({
      when: [present(MOTOR_LEAD), absent(`${MOTOR_LEAD}.inductance`)],
      formula: 'length·0.35 mH/km',
      source: 'common practice, no source',
      inputs: { length: value('cable.lead_length') },
      assumes: 'an inductance of 0.35 mH/km: the lead’s sheet gives none',
      compute: ({ length }) => length * DEFAULT_INDUCTANCE,
    }),
    WITHOUT_LEAD,
  ]),
  valueBy('cable.inductance', 'inductance of the main cable, per length', 'inductance_per_length', [
    method({
      formula: 'as on the sheet',
      source: 'the entry itself',
      inputs: { sections: rows('equipment.cable.main', { length: 'number', inductance: 'number' }) },
      compute: ({ sections }) =>
        sections.reduce((sum, each) => sum + each.length * each.inductance, 0) /
        sections.reduce((sum, each) => sum + each.length, 0),
    }),
    method({
      formula: '0.35 mH/km where the sheet gives none',
      source: 'common practice, no source',
      inputs: { sections: SECTIONS },
      assumes: 'an inductance of 0.35 mH/km: the cable’s sheet gives none',
      compute: ({ sections }) => meanAlong(sections, (each) => each.inductance ?? DEFAULT_INDUCTANCE),
    }),
  ]),
  declareValue({
    id: 'cable.reactance',
    title: 'reactance of cable and lead, per phase',
    kind: 'resistance',
    formula: '2π·f·Σ length·inductance',
    source: 'definition',
    inputs: {
      frequency: value('motor.frequency'),
      length: value('cable.main_length'),
      perLength: value('cable.inductance'),
      lead: value('cable.lead_inductance'),
    },
    compute: ({ frequency, length, perLength, lead }) => 2 * Math.PI * frequency * (length * perLength + lead),
  }),
  declareValue({
    id: 'cable.length_margin',
    title: 'cable and lead beyond the depth of the intake',
    kind: 'length',
    formula: '(main + lead) − md_intake',
    source: 'geometry',
    inputs: { main: value('cable.main_length'), lead: value('cable.lead_length'), md: entry('well.intake.md') },
    compute: ({ main, lead, md }) => main + lead - md,
  }),
];

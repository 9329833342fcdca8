import { absent } from '../conditions.ts';
import { declareValue, entry, type Input, method, type ValueDeclaration, value, valueBy } from '../declare.ts';

const LINEAR_PROFILE = 'linear in vertical depth between two known temperatures (common practice, no source)';
const FORMULA = 'T_top + (T_res − T_top)·tvd_intake/tvd_perf';

interface Profile {
  readonly top: number;
  readonly reservoir: number;
  readonly intake: number;
  readonly perforations: number;
}

function atIntake({ top, reservoir, intake, perforations }: Profile): number {
  return top + ((reservoir - top) * intake) / perforations;
}

function profileFrom(top: Input<number>) {
  return {
    top,
    reservoir: entry('reservoir.temperature'),
    intake: value('well.intake_tvd'),
    perforations: value('well.perforation_tvd'),
  };
}

const WELL_TOP = 'temperature at the top of the well, from the flow where it is known';

export const TEMPERATURES: readonly ValueDeclaration[] = [
  valueBy('well.top_temperature', WELL_TOP, 'temperature', [
    method({
      formula: 'flowing wellhead temperature',
      source: 'the entry itself',
      inputs: { flowing: entry('well.wellhead.flowing_temperature') },
      compute: ({ flowing }) => flowing,
    }),
    method({
      when: [absent('well.wellhead.flowing_temperature')],
      formula: 'surface temperature',
      source: 'the entry itself',
      inputs: { surface: entry('well.surface_temperature') },
      assumes: 'the top of the well as cool as the surface: no flowing wellhead temperature is given',
      compute: ({ surface }) => surface,
    }),
  ]),
  declareValue({
    id: 'intake.temperature',
    title: 'temperature at the intake',
    kind: 'temperature',
    formula: FORMULA,
    source: LINEAR_PROFILE,
    inputs: profileFrom(value('well.top_temperature')),
    compute: atIntake,
  }),
];

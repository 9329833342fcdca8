import { absent, present } from '../conditions.ts';
import {
  declareValue,
  entry,
  method,
  type Outcome,
  type Row,
  rows,
  type ValueDeclaration,
  value,
  valueBy,
} from '../declare.ts';

const LEAD = 'equipment.cable.motor_lead';
const SHAPE = { shape: 'text?', width: 'number?', thickness: 'number?', outer_diameter: 'number?' } as const;
type Laid = Row<typeof SHAPE>;

/** What a cable adds to the diameter beside it, m: lying flat its thickness, round its diameter, or width and thickness where both are given; NaN if not on its sheet. */
function laidHeight({ shape, width, thickness, outer_diameter: diameter }: Laid): number {
  if (shape === 'flat') return thickness ?? Number.NaN;
  if (shape !== 'round') return diameter ?? thickness ?? Number.NaN;
  return diameter ?? Math.max(width ?? Number.NaN, thickness ?? Number.NaN);
}

function highest(runs: readonly Laid[]): number {
  return Math.max(...runs.map(laidHeight));
}

const GEOMETRY = 'geometry; flat cable and lead lie flat, clamps and couplings are not in the format';
const NO_SIZE = 'a flat cable has no thickness on its sheet, or a round one no outer diameter';

const MOTOR = entry('equipment.motor.outer_diameter');
const PUMP = entry('equipment.pump.outer_diameter');
const TUBING = entry('well.tubing.outer_diameter');
const MAIN = rows('equipment.cable.main', SHAPE);

function largest(motor: number, pump: number, tubing: number): Outcome {
  const sizes = { 'the motor': motor, 'the pump with the lead': pump, 'the tubing with the cable': tubing };
  const [binding, number] = Object.entries(sizes).reduce((a, b) => (b[1] > a[1] ? b : a));
  return { number: Object.values(sizes).some(Number.isNaN) ? Number.NaN : number, binding };
}

export const FIT: readonly ValueDeclaration[] = [
  valueBy('fit.largest_diameter', 'largest diameter that goes into the casing', 'small_length', [
    method({
      when: [present(LEAD)],
      formula: 'max(motor; pump + lead; tubing + cable)',
      source: GEOMETRY,
      inputs: { motor: MOTOR, pump: PUMP, tubing: TUBING, main: MAIN, lead: rows(LEAD, SHAPE) },
      without: NO_SIZE,
      compute: ({ motor, pump, tubing, main, lead }) => largest(motor, pump + highest(lead), tubing + highest(main)),
    }),
    method({
      when: [absent(LEAD)],
      formula: 'max(motor; pump; tubing + cable)',
      source: GEOMETRY,
      inputs: { motor: MOTOR, pump: PUMP, tubing: TUBING, main: MAIN },
      assumes: 'no lead beside the pump: none is entered',
      without: NO_SIZE,
      compute: ({ motor, pump, tubing, main }) => largest(motor, pump, tubing + highest(main)),
    }),
  ]),
  declareValue({
    id: 'fit.clearance',
    title: 'clearance in the casing',
    kind: 'small_length',
    formula: 'casing drift − largest diameter',
    source: 'geometry',
    inputs: { drift: entry('well.casing.drift'), largest: value('fit.largest_diameter') },
    compute: ({ drift, largest: diameter }) => drift - diameter,
  }),
];

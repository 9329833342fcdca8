import { type Document, NONE } from '../engine/index.ts';

export type Lift = 'linear' | 'rotary';

/** Keys that have a meaning for one lift only; those of a data sheet by the entry that it stands behind. */
const OF_ONE_LIFT: Readonly<Record<Lift, readonly string[]>> = {
  linear: [
    ...['operation.stroke', 'operation.cases.stroke_rate', 'equipment.motor.thrust', 'equipment.motor.pole_pitch'],
    ...['plunger_diameter', 'stroke_max', 'acting', 'volumetric_efficiency', 'friction_force'].map(ofPump),
    ...['differential_pressure_max', 'stroke_rate_max', 'rod_diameter', 'moving_mass'].map(ofPump),
  ],
  rotary: [
    ...['operation.frequency', 'operation.cases.frequency', 'equipment.motor.power', 'equipment.motor.poles'],
    ...['stages', 'curve', 'recommended_rate', 'shaft_power_max', 'gas_separation', 'pressure_max'].map(ofPump),
  ],
};

/** Units that say of which lift the machine is, where a key takes both. */
const UNITS_OF_ONE_LIFT: Readonly<Record<Lift, readonly string[]>> = { linear: ['m/s', 'ft/s'], rotary: ['rpm'] };

const OTHER: Readonly<Record<Lift, Lift>> = { linear: 'rotary', rotary: 'linear' };

/** Whether a key can mean something in a document, by its lift; anything can in one that does not say. */
export function suitsLift(document: Document, key: string): boolean {
  const lift = liftOf(document);
  return lift === undefined || !OF_ONE_LIFT[OTHER[lift]].includes(entryKey(document, key));
}

export function unitSuitsLift(document: Document, unit: string): boolean {
  const lift = liftOf(document);
  return lift === undefined || !UNITS_OF_ONE_LIFT[OTHER[lift]].includes(unit);
}

/** The lift that a document is about: as it says, or as its motor or pump tells. */
export function liftOf(document: Document): Lift | undefined {
  const { tree, kind } = document;
  const told = tree.scalar(tree.find('lift'));
  if (told === 'linear' || told === 'rotary') return told;
  if (kind === 'motor') {
    const type = tree.scalar(tree.find('type'));
    return type === '' ? undefined : type.startsWith('linear') ? 'linear' : 'rotary';
  }
  if (kind !== 'pump') return undefined;
  const has = (key: string) => tree.find(key) !== NONE;
  return has('plunger_diameter') ? 'linear' : has('stages') || has('curve') ? 'rotary' : undefined;
}

function entryKey({ kind }: Document, key: string): string {
  const plain = key.replace(/\[\d+\]/g, '');
  return kind === 'motor' || kind === 'pump' ? `equipment.${kind}.${plain}` : plain;
}

function ofPump(key: string): string {
  return `equipment.pump.${key}`;
}

import { sameDimension, tableUnits } from './symbols.ts';
import type { Dimension, Kind, Nature, Unit } from './types.ts';
import * as dim from './unit-table.ts';

interface KindRow {
  readonly phrase: string;
  readonly internal: string;
  readonly dimension: Dimension;
  readonly usual: readonly string[];
  readonly natures?: readonly Nature[];
  readonly point?: Kind['point'];
  readonly alternate?: Dimension;
}

const PLAIN: readonly Nature[] = ['plain'];
const LENGTHS = ['m', 'ft', 'mm', 'in'];
const SHARES: readonly Nature[] = ['ratio', 'plain'];
const EVERY_NATURE: readonly Nature[] = ['bare', 'plain', 'ratio', 'angle', 'cycle', 'revolution', 'apparent'];

const ROWS = {
  length: { phrase: 'a length', internal: 'm', dimension: dim.LENGTH, usual: LENGTHS },
  /** Diameters, walls, pitches: what is never told in metres. */
  small_length: { phrase: 'a length', internal: 'm', dimension: dim.LENGTH, usual: ['mm', 'in'] },
  depth: { phrase: 'a depth', internal: 'm', dimension: dim.LENGTH, usual: ['m', 'ft'] },
  area: { phrase: 'an area', internal: 'm2', dimension: dim.AREA, usual: ['mm2', 'cm2', 'in2'] },
  volume: { phrase: 'a volume', internal: 'm3', dimension: dim.VOLUME, usual: ['m3', 'bbl', 'l', 'gal'] },
  conductor_size: {
    phrase: 'a conductor size',
    internal: 'm2',
    dimension: dim.AREA,
    usual: ['mm2', 'AWG', 'kcmil'],
  },
  mass: { phrase: 'a mass', internal: 'kg', dimension: dim.MASS, usual: ['kg', 'lb', 't'] },
  density: {
    phrase: 'a density',
    internal: 'kg/m3',
    dimension: dim.DENSITY,
    usual: ['kg/m3', 'g/cm3', 'lb/gal', 'lb/ft3', 'SG'],
  },
  oil_gravity: {
    phrase: "an oil's gravity",
    internal: 'kg/m3',
    dimension: dim.DENSITY,
    usual: ['degAPI', 'kg/m3', 'SG'],
  },
  gas_gravity: {
    phrase: "a gas's gravity relative to air",
    internal: '',
    dimension: dim.NUMBER,
    usual: [],
    natures: ['bare'],
  },
  ratio: { phrase: 'a share', internal: '', dimension: dim.NUMBER, usual: ['%', 'ppm'], natures: ['ratio'] },
  plain: {
    phrase: 'a plain number or a share',
    internal: '',
    dimension: dim.NUMBER,
    usual: ['', '%'],
    natures: ['bare', 'ratio'],
  },
  count: { phrase: 'a plain number', internal: '', dimension: dim.NUMBER, usual: [], natures: ['bare'] },
  pressure: {
    phrase: 'a pressure',
    internal: 'Pa',
    dimension: dim.PRESSURE,
    usual: ['bar', 'psi', 'kPa', 'MPa'],
    point: 'pressure',
  },
  pressure_difference: {
    phrase: 'a difference of pressures',
    internal: 'Pa',
    dimension: dim.PRESSURE,
    usual: ['bar', 'psi', 'kPa', 'MPa'],
  },
  pressure_gradient: {
    phrase: 'a pressure gradient',
    internal: 'Pa/m',
    dimension: dim.PRESSURE_GRADIENT,
    usual: ['kPa/m', 'bar/100 m', 'psi/ft'],
  },
  temperature: {
    phrase: 'a temperature',
    internal: 'degC',
    dimension: dim.TEMPERATURE,
    usual: ['degC', 'degF'],
    point: 'temperature',
  },
  temperature_difference: {
    phrase: 'a difference of temperatures',
    internal: 'K',
    dimension: dim.TEMPERATURE,
    usual: ['K', 'delta degC', 'delta degF'],
  },
  temperature_gradient: {
    phrase: 'a temperature gradient',
    internal: 'K/m',
    dimension: dim.TEMPERATURE_GRADIENT,
    usual: ['K/km', 'K/100 m', 'degF/100 ft'],
  },
  volume_rate: {
    phrase: 'a flow rate',
    internal: 'm3/s',
    dimension: dim.VOLUME_RATE,
    usual: ['m3/d', 'bbl/d', 'm3/h', 'gpm'],
  },
  productivity_index: {
    phrase: 'a productivity index',
    internal: 'm3/s/Pa',
    dimension: dim.PRODUCTIVITY_INDEX,
    usual: ['m3/d/bar', 'bbl/d/psi'],
  },
  gas_oil_ratio: {
    phrase: 'a gas-oil ratio',
    internal: 'm3/m3',
    dimension: dim.NUMBER,
    usual: ['m3/m3', 'scf/bbl'],
  },
  viscosity: {
    phrase: 'a viscosity',
    internal: 'Pa.s',
    dimension: dim.VISCOSITY,
    usual: ['cP', 'mPa.s', 'cSt'],
    alternate: dim.KINEMATIC_VISCOSITY,
  },
  voltage: { phrase: 'a voltage', internal: 'V', dimension: dim.VOLTAGE, usual: ['V', 'kV'] },
  voltage_per_length: {
    phrase: 'a voltage drop per length',
    internal: 'V/m',
    dimension: dim.VOLTAGE_PER_LENGTH,
    usual: ['V/km', 'V/1000 ft'],
  },
  voltage_per_frequency: {
    phrase: 'a voltage per frequency',
    internal: 'V/Hz',
    dimension: dim.VOLTAGE_PER_FREQUENCY,
    usual: ['V/Hz'],
    natures: ['cycle'],
  },
  current: { phrase: 'a current', internal: 'A', dimension: dim.CURRENT, usual: ['A', 'mA'] },
  power: { phrase: 'a power', internal: 'W', dimension: dim.POWER, usual: ['kW', 'hp', 'W'] },
  apparent_power: {
    phrase: 'an apparent power',
    internal: 'VA',
    dimension: dim.POWER,
    usual: ['kVA', 'VA'],
    natures: ['apparent'],
  },
  frequency: {
    phrase: 'a frequency',
    internal: 'Hz',
    dimension: dim.PER_TIME,
    usual: ['Hz', 'kHz'],
    natures: ['cycle'],
  },
  rotational_speed: {
    phrase: 'a speed of rotation',
    internal: '1/s',
    dimension: dim.PER_TIME,
    usual: ['rpm', '/min', 'Hz'],
    natures: ['revolution', 'cycle', 'plain'],
  },
  stroke_rate: { phrase: 'a stroke rate', internal: '1/s', dimension: dim.PER_TIME, usual: ['/min'] },
  speed: { phrase: 'a speed', internal: 'm/s', dimension: dim.SPEED, usual: ['m/s', 'ft/s'] },
  vibration: { phrase: 'a vibration velocity', internal: 'm/s', dimension: dim.SPEED, usual: ['mm/s', 'in/s'] },
  acceleration: {
    phrase: 'an acceleration',
    internal: 'm/s2',
    dimension: dim.ACCELERATION,
    usual: ['m/s2', 'gn', 'ft/s2'],
  },
  resistance: { phrase: 'a resistance', internal: 'ohm', dimension: dim.RESISTANCE, usual: ['ohm', 'mohm', 'Mohm'] },
  resistance_per_length: {
    phrase: 'a resistance per length',
    internal: 'ohm/m',
    dimension: dim.RESISTANCE_PER_LENGTH,
    usual: ['ohm/km', 'ohm/1000 ft'],
  },
  inductance: { phrase: 'an inductance', internal: 'H', dimension: dim.INDUCTANCE, usual: ['mH', 'uH'] },
  inductance_per_length: {
    phrase: 'an inductance per length',
    internal: 'H/m',
    dimension: dim.INDUCTANCE_PER_LENGTH,
    usual: ['mH/km', 'uH/m', 'mH/1000 ft'],
  },
  insulation_length: {
    phrase: 'an insulation resistance times length',
    internal: 'ohm.m',
    dimension: dim.RESISTANCE_LENGTH,
    usual: ['Mohm.km', 'Mohm.kft'],
  },
  force: { phrase: 'a force', internal: 'N', dimension: dim.FORCE, usual: ['kN', 'N', 'lbf', 'kgf'] },
  force_per_length: {
    phrase: 'a force per length',
    internal: 'N/m',
    dimension: dim.FORCE_PER_LENGTH,
    usual: ['N/m', 'lbf/ft'],
  },
  torque: { phrase: 'a torque', internal: 'N.m', dimension: dim.TORQUE, usual: ['N.m', 'lbf.ft'] },
  duration: { phrase: 'a duration', internal: 's', dimension: dim.TIME, usual: ['s', 'min', 'h', 'd'] },
  angle: { phrase: 'an angle', internal: 'deg', dimension: dim.NUMBER, usual: ['deg'], natures: ['angle'] },
  dogleg: {
    phrase: 'a dogleg severity',
    internal: 'deg/m',
    dimension: dim.PER_LENGTH,
    usual: ['deg/30 m', 'deg/100 ft'],
    natures: ['angle'],
  },
  derating_per_temperature: {
    phrase: 'a derating per temperature',
    internal: '1/K',
    dimension: dim.PER_TEMPERATURE,
    usual: ['%/K', '%/degF'],
    natures: SHARES,
  },
  derating_per_length: {
    phrase: 'a derating per height',
    internal: '1/m',
    dimension: dim.PER_LENGTH,
    usual: ['%/100 m', '%/1000 ft'],
    natures: SHARES,
  },
  any: {
    phrase: 'a number with its unit',
    internal: '',
    dimension: dim.NUMBER,
    usual: [],
    natures: EVERY_NATURE,
  },
} satisfies Record<string, KindRow>;

export type KindName = keyof typeof ROWS;

/** The kinds of quantity by name. `any` takes every unit; its values are in SI, angles in deg, temperatures in degC. */
export const KINDS: Readonly<Record<KindName, Kind>> = prepareKinds();

function prepareKinds(): Record<KindName, Kind> {
  const rows: readonly [string, KindRow][] = Object.entries(ROWS);
  return Object.freeze(Object.fromEntries(rows.map(([name, row]) => [name, makeKind(name, row)]))) as Record<
    KindName,
    Kind
  >;
}

function makeKind(name: string, row: KindRow): Kind {
  return Object.freeze({
    name,
    phrase: row.phrase,
    internal: row.internal,
    dimension: row.dimension,
    point: row.point,
    usual: row.usual,
    natures: row.natures ?? PLAIN,
    alternate: row.alternate,
  });
}

/** The kind of that name, as a schema's `quantity.kind` gives it. */
export function kindNamed(name: string): Kind | undefined {
  return Object.hasOwn(KINDS, name) ? KINDS[name as KindName] : undefined;
}

/** Why a unit does not fit a kind: another dimension, or a point where a difference is due, or the other way round. */
export type Misfit = 'dimension' | 'point-for-difference' | 'difference-for-point';

/** Whether a number in this unit can be of this kind; undefined when it fits. */
export function misfit(kind: Kind, unit: Unit): Misfit | undefined {
  if (kind === KINDS.any) return unit.nature === 'mixed' ? 'dimension' : undefined;
  const dimensionFits = sameDimension(kind.dimension, unit.dimension) || takesAlternate(kind, unit);
  if (!dimensionFits || !kind.natures.includes(unit.nature)) return 'dimension';
  if (unit.scale === 'difference' && kind.point === 'temperature') return 'difference-for-point';
  if (unit.scale === 'point' && kind.point !== 'temperature') return 'point-for-difference';
  return undefined;
}

/** Whether the unit is of the kind's second dimension, such as `cSt` where `cP` is the first choice. */
export function takesAlternate(kind: Kind, unit: Unit): boolean {
  return kind.alternate !== undefined && sameDimension(kind.alternate, unit.dimension);
}

/** In words, what a number in this unit would be, such as "a pressure"; undefined for a unit of no kind. */
export function phraseOfUnit(unit: Unit): string | undefined {
  return Object.values(KINDS).find((kind) => kind !== KINDS.any && misfit(kind, unit) !== 'dimension')?.phrase;
}

/** Symbols of the units that a number of this kind can be written in, the usual ones first; compounds only if usual. */
export function fittingUnits(kind: Kind): readonly string[] {
  const fitting = tableUnits().filter((unit) => misfit(kind, unit) === undefined);
  return [...new Set([...kind.usual, ...fitting.map(({ symbol }) => symbol)])].filter((symbol) => symbol !== '');
}

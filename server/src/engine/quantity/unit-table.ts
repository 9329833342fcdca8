import type { Dimension, Nature, Scale, UnitSystem } from './types.ts';

/** A factor to the internal unit as an exact fraction, numerator over denominator. */
export type Factor = readonly [numerator: number, denominator: number];

/** One line of the table of units. */
export interface UnitRow {
  readonly symbol: string;
  readonly factor: Factor;
  readonly dimension: Dimension;
  readonly source: string;
  /** Other symbols read as this unit; they take the prefixes too. */
  readonly spellings?: readonly string[];
  /** Full names read as this unit; they take no prefix. */
  readonly words?: readonly string[];
  /** SI prefixes that are read before the symbols. */
  readonly prefixes?: string;
  readonly nature?: Nature;
  readonly scale?: Scale;
  readonly offset?: number;
  readonly system?: UnitSystem;
}

const dimension = (length: number, mass: number, time: number, current = 0, temperature = 0): Dimension =>
  Object.freeze({ length, mass, time, current, temperature });

export const NUMBER = dimension(0, 0, 0);
export const LENGTH = dimension(1, 0, 0);
export const AREA = dimension(2, 0, 0);
export const VOLUME = dimension(3, 0, 0);
export const MASS = dimension(0, 1, 0);
export const TIME = dimension(0, 0, 1);
export const PER_TIME = dimension(0, 0, -1);
export const CURRENT = dimension(0, 0, 0, 1);
export const TEMPERATURE = dimension(0, 0, 0, 0, 1);
export const DENSITY = dimension(-3, 1, 0);
export const SPEED = dimension(1, 0, -1);
export const ACCELERATION = dimension(1, 0, -2);
export const VOLUME_RATE = dimension(3, 0, -1);
export const KINEMATIC_VISCOSITY = dimension(2, 0, -1);
export const FORCE = dimension(1, 1, -2);
export const FORCE_PER_LENGTH = dimension(0, 1, -2);
export const TORQUE = dimension(2, 1, -2);
export const PRESSURE = dimension(-1, 1, -2);
export const PRESSURE_GRADIENT = dimension(-2, 1, -2);
export const PRODUCTIVITY_INDEX = dimension(4, -1, 1);
export const VISCOSITY = dimension(-1, 1, -1);
export const POWER = dimension(2, 1, -3);
export const VOLTAGE = dimension(2, 1, -3, -1);
export const VOLTAGE_PER_LENGTH = dimension(1, 1, -3, -1);
export const VOLTAGE_PER_FREQUENCY = dimension(2, 1, -2, -1);
export const RESISTANCE = dimension(2, 1, -3, -2);
export const RESISTANCE_PER_LENGTH = dimension(1, 1, -3, -2);
export const RESISTANCE_LENGTH = dimension(3, 1, -3, -2);
export const INDUCTANCE = dimension(2, 1, -2, -2);
export const INDUCTANCE_PER_LENGTH = dimension(1, 1, -2, -2);
export const PER_LENGTH = dimension(-1, 0, 0);
export const PER_TEMPERATURE = dimension(0, 0, 0, 0, -1);
export const TEMPERATURE_GRADIENT = dimension(-1, 0, 0, 0, 1);

/** SI prefixes that the table uses (SI Brochure, table 7). */
export const PREFIXES: Readonly<Record<string, Factor>> = {
  G: [1e9, 1],
  M: [1e6, 1],
  k: [1e3, 1],
  h: [1e2, 1],
  c: [1, 1e2],
  m: [1, 1e3],
  u: [1, 1e6],
};

/** Density of water at 60 degF and 1 atm in kg/m3, the base of API gravity. Source: API MPMS ch. 11, from memory. */
export const WATER_DENSITY_60F = 999.016;

const SI = 'SI Brochure, 9th edition';
const NIST = 'NIST SP 811, App. B.8';

/**
 * The units, as data. Factors are exact where the definition is; the internal unit of each dimension has factor 1. Two
 * departures from SI: a temperature on a scale is in degC, an angle in deg, since authors and formulas use these.
 */
export const UNIT_TABLE: readonly UnitRow[] = [
  {
    symbol: 'm',
    factor: [1, 1],
    dimension: LENGTH,
    words: ['metre', 'metres', 'meter', 'meters'],
    prefixes: 'kcmu',
    system: 'metric',
    source: SI,
  },
  {
    symbol: 'ft',
    factor: [3048, 1e4],
    dimension: LENGTH,
    words: ['foot', 'feet'],
    prefixes: 'k',
    system: 'oilfield',
    source: NIST,
  },
  {
    symbol: 'in',
    factor: [254, 1e4],
    dimension: LENGTH,
    spellings: ['"'],
    words: ['inch', 'inches'],
    system: 'oilfield',
    source: NIST,
  },
  {
    symbol: 'kcmil',
    factor: [Math.PI * 16129, 1e11],
    dimension: AREA,
    spellings: ['MCM'],
    system: 'oilfield',
    source: `${NIST}: circular mil, pi/4 x (0.001 in)2`,
  },
  {
    symbol: 'AWG',
    factor: [1, 1],
    dimension: AREA,
    scale: 'awg',
    system: 'oilfield',
    source: 'ASTM B258: d = 0.127 mm x 92^((36 - n)/39)',
  },
  {
    symbol: 'l',
    factor: [1, 1e3],
    dimension: VOLUME,
    spellings: ['L'],
    words: ['litre', 'litres', 'liter', 'liters'],
    prefixes: 'm',
    system: 'metric',
    source: SI,
  },
  {
    symbol: 'Sm3',
    factor: [1, 1],
    dimension: VOLUME,
    spellings: ['sm3'],
    system: 'metric',
    source: 'a cubic metre at standard conditions',
  },
  {
    symbol: 'gal',
    factor: [3785411784, 1e12],
    dimension: VOLUME,
    words: ['gallon', 'gallons'],
    system: 'oilfield',
    source: `${NIST}: US gallon, 231 in3`,
  },
  {
    symbol: 'bbl',
    factor: [158987294928, 1e12],
    dimension: VOLUME,
    spellings: ['stb', 'STB', 'bbls'],
    words: ['barrel', 'barrels'],
    system: 'oilfield',
    source: `${NIST}: barrel of 42 US gallons`,
  },
  {
    symbol: 'scf',
    factor: [28316846592, 1e12],
    dimension: VOLUME,
    spellings: ['cf'],
    system: 'oilfield',
    source: `${NIST}: a cubic foot, at standard conditions`,
  },
  {
    symbol: 'kg',
    factor: [1, 1],
    dimension: MASS,
    words: ['kilogram', 'kilograms'],
    system: 'metric',
    source: SI,
  },
  { symbol: 'g', factor: [1, 1e3], dimension: MASS, prefixes: 'm', system: 'metric', source: SI },
  { symbol: 't', factor: [1e3, 1], dimension: MASS, words: ['tonne', 'tonnes'], system: 'metric', source: SI },
  {
    symbol: 'lb',
    factor: [45359237, 1e8],
    dimension: MASS,
    spellings: ['lbs', 'lbm'],
    words: ['pound', 'pounds'],
    system: 'oilfield',
    source: NIST,
  },
  {
    symbol: 'SG',
    factor: [WATER_DENSITY_60F, 1],
    dimension: DENSITY,
    source: 'relative to water at 60 degF; API MPMS ch. 11, from memory',
  },
  {
    symbol: 'degAPI',
    factor: [1, 1],
    dimension: DENSITY,
    scale: 'api',
    spellings: ['API', 'deg API'],
    system: 'oilfield',
    source: 'API MPMS ch. 11, from memory: SG = 141.5/(131.5 + API)',
  },
  {
    symbol: 'ppg',
    factor: [45359237e4, 3785411784],
    dimension: DENSITY,
    system: 'oilfield',
    source: `${NIST}: lb per US gallon`,
  },
  {
    symbol: 's',
    factor: [1, 1],
    dimension: TIME,
    spellings: ['sec'],
    words: ['second', 'seconds'],
    prefixes: 'm',
    source: SI,
  },
  { symbol: 'min', factor: [60, 1], dimension: TIME, words: ['minute', 'minutes'], source: SI },
  { symbol: 'h', factor: [3600, 1], dimension: TIME, spellings: ['hr', 'hrs'], words: ['hour', 'hours'], source: SI },
  { symbol: 'd', factor: [86400, 1], dimension: TIME, words: ['day', 'days'], source: SI },
  {
    symbol: 'Hz',
    factor: [1, 1],
    dimension: PER_TIME,
    nature: 'cycle',
    words: ['hertz'],
    prefixes: 'kM',
    source: SI,
  },
  {
    symbol: 'rpm',
    factor: [1, 60],
    dimension: PER_TIME,
    nature: 'revolution',
    spellings: ['r/min', 'rev/min'],
    source: NIST,
  },
  {
    symbol: 'K',
    factor: [1, 1],
    dimension: TEMPERATURE,
    offset: -273.15,
    spellings: ['delta K'],
    words: ['kelvin'],
    system: 'metric',
    source: SI,
  },
  {
    symbol: 'degC',
    factor: [1, 1],
    dimension: TEMPERATURE,
    scale: 'point',
    spellings: ['C', 'deg C'],
    words: ['celsius'],
    system: 'metric',
    source: SI,
  },
  {
    symbol: 'degF',
    factor: [5, 9],
    dimension: TEMPERATURE,
    scale: 'point',
    offset: -160 / 9,
    spellings: ['F', 'deg F'],
    words: ['fahrenheit'],
    system: 'oilfield',
    source: NIST,
  },
  {
    symbol: 'delta degC',
    factor: [1, 1],
    dimension: TEMPERATURE,
    scale: 'difference',
    spellings: ['delta C', 'delta deg C'],
    system: 'metric',
    source: SI,
  },
  {
    symbol: 'delta degF',
    factor: [5, 9],
    dimension: TEMPERATURE,
    scale: 'difference',
    spellings: ['delta F', 'delta deg F'],
    system: 'oilfield',
    source: NIST,
  },
  { symbol: 'N', factor: [1, 1], dimension: FORCE, words: ['newton'], prefixes: 'kM', system: 'metric', source: SI },
  { symbol: 'kgf', factor: [980665, 1e5], dimension: FORCE, system: 'metric', source: NIST },
  {
    symbol: 'lbf',
    factor: [44482216152605, 1e13],
    dimension: FORCE,
    prefixes: 'k',
    system: 'oilfield',
    source: NIST,
  },
  { symbol: 'Pa', factor: [1, 1], dimension: PRESSURE, prefixes: 'MkhmG', system: 'metric', source: SI },
  { symbol: 'bar', factor: [1e5, 1], dimension: PRESSURE, prefixes: 'm', system: 'metric', source: NIST },
  {
    symbol: 'psi',
    factor: [44482216152605, 6451600000],
    dimension: PRESSURE,
    spellings: ['lbf/in2'],
    system: 'oilfield',
    source: `${NIST}: lbf/in2`,
  },
  { symbol: 'atm', factor: [101325, 1], dimension: PRESSURE, source: NIST },
  { symbol: 'P', factor: [1, 10], dimension: VISCOSITY, words: ['poise'], prefixes: 'c', source: `${NIST}: poise` },
  { symbol: 'St', factor: [1, 1e4], dimension: KINEMATIC_VISCOSITY, prefixes: 'c', source: `${NIST}: stokes` },
  {
    symbol: 'gpm',
    factor: [3785411784, 60e12],
    dimension: VOLUME_RATE,
    system: 'oilfield',
    source: `${NIST}: US gallon per minute`,
  },
  {
    symbol: 'bpd',
    factor: [158987294928, 86400e12],
    dimension: VOLUME_RATE,
    system: 'oilfield',
    source: `${NIST}: barrel per day`,
  },
  {
    symbol: 'gn',
    factor: [980665, 1e5],
    dimension: ACCELERATION,
    spellings: ['g_n'],
    source: `${NIST}: standard acceleration of free fall`,
  },
  {
    symbol: 'A',
    factor: [1, 1],
    dimension: CURRENT,
    words: ['amp', 'amps', 'ampere', 'amperes'],
    prefixes: 'kmu',
    source: SI,
  },
  { symbol: 'V', factor: [1, 1], dimension: VOLTAGE, words: ['volt', 'volts'], prefixes: 'kmM', source: SI },
  {
    symbol: 'W',
    factor: [1, 1],
    dimension: POWER,
    words: ['watt', 'watts'],
    prefixes: 'kM',
    system: 'metric',
    source: SI,
  },
  {
    symbol: 'hp',
    factor: [550 * 0.3048 * 44482216152605, 1e13],
    dimension: POWER,
    spellings: ['HP'],
    system: 'oilfield',
    source: `${NIST}: 550 ft.lbf/s`,
  },
  {
    symbol: 'VA',
    factor: [1, 1],
    dimension: POWER,
    nature: 'apparent',
    spellings: ['V.A'],
    prefixes: 'kM',
    source: SI,
  },
  {
    symbol: 'ohm',
    factor: [1, 1],
    dimension: RESISTANCE,
    spellings: ['Ohm', 'ohms'],
    prefixes: 'GMkmu',
    source: SI,
  },
  { symbol: 'H', factor: [1, 1], dimension: INDUCTANCE, words: ['henry'], prefixes: 'mu', source: SI },
  { symbol: 'deg', factor: [1, 1], dimension: NUMBER, nature: 'angle', words: ['degree', 'degrees'], source: SI },
  { symbol: 'rad', factor: [180, Math.PI], dimension: NUMBER, nature: 'angle', source: SI },
  { symbol: '%', factor: [1, 100], dimension: NUMBER, nature: 'ratio', words: ['percent'], source: SI },
  { symbol: 'ppm', factor: [1, 1e6], dimension: NUMBER, nature: 'ratio', source: NIST },
];

/**
 * Compounds common enough to be looked up whole; any other is worked out each time it is met. Preparing one costs more
 * than meeting it once, and a cold start pays for each, so only those of nearly every document are here.
 */
export const COMMON_COMPOUNDS: readonly string[] = [
  ...['mm2', 'm2', 'm3', 'ft3', 'kg/m3', 'g/cm3', 'lb/gal', 'kgf/cm2', 'kPa/m', 'psi/ft'],
  ...['m3/d', 'bbl/d', 'm3/h', 'l/s', 'm3/d/bar', 'bbl/d/psi', 'm3/m3', 'scf/bbl', 'mPa.s'],
  ...['m/s', 'ft/s', 'mm/s', '/min', '1/min', 'N.m', 'lbf.ft', 'ft.lbf', 'V/1000 ft', 'V/km'],
  ...['ohm/km', 'ohm/kft', 'mH/km', 'Mohm.km', 'deg/30 m', 'deg/100 ft', 'K/km', '%/K', '%/100 m'],
];

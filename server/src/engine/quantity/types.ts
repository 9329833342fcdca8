/**
 * Exponents over the base units of length, mass, time, current and temperature. Angles and counts are dimensionless.
 */
export interface Dimension {
  readonly length: number;
  readonly mass: number;
  readonly time: number;
  readonly current: number;
  readonly temperature: number;
}

/** What a pressure is measured from. */
export type Reference = 'gauge' | 'absolute';

/**
 * What the dimension alone does not tell apart: `%` from `deg` from a bare number, `rpm` from `Hz`, `VA` from `W`.
 * `mixed` is a compound of two such units and fits nothing.
 */
export type Nature = 'bare' | 'plain' | 'ratio' | 'angle' | 'cycle' | 'revolution' | 'apparent' | 'mixed';

/**
 * How a number in a unit standing alone becomes an internal value: by its factor (`linear`); by factor and offset, as a
 * temperature on a scale (`point`); as a difference of temperatures only (`difference`); by the formulas of API gravity
 * (`api`) and of the American wire gauge (`awg`).
 */
export type Scale = 'linear' | 'point' | 'difference' | 'api' | 'awg';

/** Families of units, to notice that one quantity is written in two of them; `both` is at home in either. */
export type UnitSystem = 'metric' | 'oilfield' | 'both';

/** One unit of the table: its SI factor and dimension; `offset` (added after scaling) only for temperature points. */
export interface Unit {
  /** Spelling that we write, such as `m3/d` or `degC`. */
  readonly symbol: string;
  readonly factor: number;
  readonly offset: number;
  readonly dimension: Dimension;
  /** The factor as a fraction: `38 mm` is 38 * 1 / 1000, the very same number as `0.038 m`. */
  readonly numerator: number;
  readonly denominator: number;
  readonly nature: Nature;
  readonly scale: Scale;
  readonly system: UnitSystem;
}

/** A kind of quantity that a key can hold. */
export interface Kind {
  /** Name used in the schemas' `quantity.kind`. */
  readonly name: string;
  /** In words, for messages: "a pressure", "a difference of temperatures". */
  readonly phrase: string;
  /** Symbol of the internal unit in which `Quantity.value` is stored. */
  readonly internal: string;
  readonly dimension: Dimension;
  /** Points on a scale with an origin: pressures (gauge or absolute) and temperatures. */
  readonly point: 'pressure' | 'temperature' | undefined;
  /** Natures of unit that it takes; `bare` among them when a number without a unit is fine. */
  readonly natures: readonly Nature[];
  /** A second dimension that is taken too and marked in `Quantity.alternate`: kinematic viscosity. */
  readonly alternate: Dimension | undefined;
  /** Units that are usual for it, for messages and completion. */
  readonly usual: readonly string[];
}

/** A quantity as an author wrote it, and as the engine computes with it. */
export interface Quantity {
  readonly kind: Kind;
  /** In the kind's internal unit. A pressure point is *not yet* absolute: see `reference`. */
  readonly value: number;
  /** The number as written, before conversion. */
  readonly number: number;
  /** Symbol of the unit as we write it, without the pressure reference. */
  readonly unit: string;
  /** As stated by the author (`bar(g)`, `psia`); undefined when the unit was bare, or the kind takes none. */
  readonly reference: Reference | undefined;
  /** Half-width of a stated tolerance in the internal unit (a difference), 0 without one. */
  readonly tolerance: number;
  /** Half a unit of the last digit written, in the internal unit (a difference). */
  readonly resolution: number;
  /** Set where another dimension than the kind's own is taken: a kinematic viscosity in m2/s. */
  readonly alternate: 'kinematic' | undefined;
}

/** The kinds of documents; the generated tables have an entry for each. */
export type DocumentKind =
  | 'installation'
  | 'pump'
  | 'motor'
  | 'cable'
  | 'transformer'
  | 'drive'
  | 'gauge'
  | 'readings'
  | 'policy';

/** How the values of a key are written and read. */
export type ShapeType = 'map' | 'list' | 'quantity' | 'text' | 'number' | 'integer' | 'boolean' | 'choice' | 'any';

/** The kind of quantity that a key holds, with units and a range that are usual for this very key. */
export interface QuantityShape {
  /** Name in the table of kinds. */
  readonly kind: string;
  /** Usual units, metric first; empty for a bare number. */
  readonly usual: readonly string[];
  /** A wide range, as quantities with units, that a right value never leaves. */
  readonly plausible?: readonly [string, string];
  /** Its ends in the kind's internal unit, pressures above vacuum; worked out by the generator. */
  readonly range?: readonly [number, number];
}

/**
 * What the format knows of one place in a document, flattened from the schemas. Format, hover and completion walk it.
 * Keys that begin with `x_` are carried in every map and stand in none.
 */
export interface Shape {
  readonly type: ShapeType;
  readonly title: string;
  readonly description: string;
  /** The keys of a map. */
  readonly keys?: Readonly<Record<string, Shape>>;
  readonly required?: readonly string[];
  /** Shape of keys that are not listed, such as the ids of checks in a policy. */
  readonly open?: Shape;
  /** Source of the regular expression that such keys match. */
  readonly openPattern?: string;
  /** The items of a list. */
  readonly item?: Shape;
  readonly quantity?: QuantityShape;
  /** The values of a choice and what each means. */
  readonly choices?: Readonly<Record<string, string>>;
  /** Kind and version of the document that the text is a path to. */
  readonly reference?: string;
  /** What a computation takes where the entry is absent. */
  readonly assumed?: { readonly value: string; readonly source: string };
  /** A map, or a list of such maps (`item`). */
  readonly alsoList?: boolean;
  /** The text is an ISO date. */
  readonly date?: boolean;
  readonly examples?: readonly string[];
}

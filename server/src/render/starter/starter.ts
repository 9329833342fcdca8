import { type DocumentKind, SHAPES, type Shape, VERSIONS } from '../../engine/index.ts';
import { hintOf, isLeaf, ownKeys, titleOf } from './hint.ts';

export type Lift = 'linear' | 'rotary';

/** Keys that concern one lift only, by the name of their own; the shapes do not tell them apart. */
const OF_ONE_LIFT: Readonly<Record<Lift, ReadonlySet<string>>> = {
  linear: new Set([
    ...['stroke', 'stroke_rate', 'plunger_diameter', 'stroke_max', 'acting', 'volumetric_efficiency'],
    ...['friction_force', 'stroke_rate_max', 'rod_diameter', 'moving_mass', 'thrust', 'pole_pitch'],
  ]),
  rotary: new Set([
    ...['frequency@operation', 'frequency@cases', 'stages', 'curve', 'recommended_rate', 'shaft_power_max'],
    ...['pressure_max', 'poles', 'locked_rotor_current', 'locked_rotor_power_factor', 'phase_sequence'],
  ]),
};

/** What stands in a starter where something has to stand; invented, to be replaced. */
const EXAMPLES: Readonly<Record<string, string>> = {
  'site.well': 'A-01',
  'equipment.pump.serial': 'to be entered',
  'operation.cases.name': 'target',
  'operation.cases.intake': 'flowing',
  name: 'to be named',
};

/**
 * A document to begin with: what is required stands there with an example, everything else as a comment with its units
 * or choices. It reads without an error as it is.
 * @param lift keys of the other lift are left out; without it a data sheet lists both
 * @param well the name of an installation's well, if it is known
 */
export function starterDocument(kind: DocumentKind, lift?: Lift, well?: string): string {
  const shape = SHAPES[kind];
  const asked = kind === 'installation' ? (lift ?? 'linear') : lift;
  const starter = new Starter(asked, well === undefined ? EXAMPLES : { ...EXAMPLES, 'site.well': well });
  starter.keys(shape, { path: '', indent: '', commented: undefined });
  return `${[...preamble(kind, shape), `document: ${kind}/${VERSIONS[kind]}`, ...starter.lines].join('\n')}\n`;
}

function preamble(kind: DocumentKind, shape: Shape): readonly string[] {
  return [
    `# ${shape.title || kind}: a document to begin with. What has a value is required, and the value is an example:`,
    "# put your own in its place. To use another key, take away the '# ' in front of it and of the group that it belongs",
    '# to, and give it a value with its unit; {} takes its keys in braces, as in { min: 4 m, max: 6 m }.',
  ];
}

interface Place {
  readonly path: string;
  readonly indent: string;
  /** Indent of the comment that it is part of; undefined where it counts. */
  readonly commented: string | undefined;
}

class Starter {
  readonly lines: string[] = [];
  readonly #lift: Lift | undefined;
  readonly #examples: Readonly<Record<string, string>>;

  constructor(lift: Lift | undefined, examples: Readonly<Record<string, string>>) {
    this.#lift = lift;
    this.#examples = examples;
  }

  keys(shape: Shape, place: Place): void {
    const entries = Object.entries(ownKeys(shape)).filter(([key]) => key !== 'document' && this.#concerns(key, place));
    for (const [key, child] of entries) {
      const path = place.path === '' ? key : `${place.path}.${key}`;
      const isUsed = place.commented === undefined && isWanted(shape, key, path);
      this.#entry(key, child, { ...place, path, commented: isUsed ? undefined : (place.commented ?? place.indent) });
    }
  }

  #concerns(key: string, { path }: Place): boolean {
    if (this.#lift === undefined) return true;
    const other = OF_ONE_LIFT[this.#lift === 'linear' ? 'rotary' : 'linear'];
    return !other.has(key) && !other.has(`${key}@${path.split('.').at(-1)}`);
  }

  #entry(key: string, shape: Shape, place: Place): void {
    const isUsed = place.commented === undefined;
    if (shape.type === 'map' && (isUsed || !isLeaf(shape))) this.#map(key, shape, place);
    else if (shape.type === 'list' && isUsed) this.#list(key, shape, place);
    else this.#line(place, `${key}:${this.#valueOf(shape, place)}`, hintOf(key, shape));
  }

  #map(key: string, shape: Shape, place: Place): void {
    this.#line(place, `${key}:`, titleOf(key, shape));
    this.keys(shape, { ...place, indent: `${place.indent}  ` });
  }

  #list(key: string, shape: Shape, place: Place): void {
    this.#line(place, `${key}:`, titleOf(key, shape));
    const from = this.lines.length;
    this.keys(shape.item as Shape, { ...place, indent: `${place.indent}    ` });
    const first = this.lines[from] ?? '';
    this.lines[from] = `${place.indent}  - ${first.trimStart()}`;
  }

  #valueOf(shape: Shape, { path, commented }: Place): string {
    if (shape.type === 'map') return ' {}';
    if (shape.type === 'list') return ' []';
    if (commented !== undefined) return '';
    return ` ${path === 'lift' ? this.#lift : this.#examples[path]}`;
  }

  #line({ indent, commented }: Place, text: string, hint: string): void {
    const lead = commented === undefined ? indent : `${commented}# ${indent.slice(commented.length)}`;
    this.lines.push(`${lead}${text}${hint === '' ? '' : `  # ${hint}`}`);
  }
}

function isWanted(shape: Shape, key: string, path: string): boolean {
  const isNeeded = shape.required?.includes(key) ?? false;
  return isNeeded || Object.keys(EXAMPLES).some((each) => each === path || each.startsWith(`${path}.`));
}

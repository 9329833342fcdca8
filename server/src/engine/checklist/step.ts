/** What the crew does at a step. */
export type StepKind = 'do' | 'read' | 'set' | 'hold' | 'caution';

/** Between what a reading is accepted, in the step's unit. */
export interface StepLimit {
  readonly min?: number | string | undefined;
  readonly max?: number | string | undefined;
}

/** One line of the checklist: something to do, to read, to set, to sign, or a caution before what follows. */
export interface Step {
  /** Unique in the document and the same across revisions: readings are kept under it. */
  readonly id: string;
  readonly kind: StepKind;
  /** Heading under which the step stands within its stage. */
  readonly group?: string | undefined;
  readonly text: string;
  readonly unit?: string | undefined;
  /** The value that the file plans: a setting, a serial number, a tap. */
  readonly planned?: number | string | boolean | undefined;
  /** What a reading should come to by computation, in the step's unit. */
  readonly expected?: number | undefined;
  readonly limit?: StepLimit | undefined;
  /** Name of the operating case for which the numbers hold. */
  readonly case?: string | undefined;
  readonly source?: string | undefined;
  /** On what the numbers rest, or which entry would give them. */
  readonly note?: string | undefined;
  /** Names of the several readings of one step, such as `A-B`, `B-C`, `C-A`. */
  readonly fields?: readonly string[] | undefined;
  /** Greatest deviation of one of the readings from their mean over the mean, as a share. */
  readonly unbalanceMax?: number | undefined;
  /** Id of the step that reads the item’s temperature: insulation is brought to 40 degC, resistance to 20 degC. */
  readonly temperatureStep?: string | undefined;
  /** The answer is prose: there is room for several lines. */
  readonly prose?: true | undefined;
  /** The words of the document that a setting takes, such as `automatic`. */
  readonly choices?: readonly string[] | undefined;
  /** The setting is a list of such words. */
  readonly several?: true | undefined;
}

export interface Stage {
  readonly id: StageId;
  readonly title: string;
  readonly steps: readonly Step[];
}

/** Stages in working order; a policy adds its own steps under these names. */
export const STAGE_TITLES = {
  cover: 'Cover',
  before_leaving: 'Before leaving',
  inspection: 'Receipt and inspection',
  running_in: 'Running in',
  surface: 'Surface',
  settings: 'Settings',
  start: 'Start',
  handover: 'Handover',
} as const;
export type StageId = keyof typeof STAGE_TITLES;

export type StepDetails = Omit<Step, 'id' | 'kind' | 'text'>;

function step(kind: StepKind, id: string, text: string, details: StepDetails): Step {
  // The order of the keys is the order of the JSON.
  return { id, kind, group: details.group, text, ...details };
}

export function act(id: string, text: string, details: StepDetails = {}): Step {
  return step('do', id, text, details);
}

export function read(id: string, text: string, details: StepDetails = {}): Step {
  return step('read', id, text, details);
}

export function set(id: string, text: string, details: StepDetails = {}): Step {
  return step('set', id, text, details);
}

export function hold(id: string, text: string, details: StepDetails = {}): Step {
  return step('hold', id, text, details);
}

export function caution(id: string, text: string, details: StepDetails = {}): Step {
  return step('caution', id, text, details);
}

/** Steps under one heading. */
export function under(group: string, steps: readonly Step[]): readonly Step[] {
  return steps.map((each) => ({ ...each, group: each.group ?? group }));
}

/** Steps that concern an installation only under a condition. */
export function only(condition: boolean, ...steps: readonly Step[]): readonly Step[] {
  return condition ? steps : [];
}

/** The part of an id that is made from a name in a document: lower case, letters and digits of any script. */
export function slug(name: string, otherwise = 'unnamed'): string {
  const words = name.toLowerCase().match(/[\p{L}\p{N}]+/gu);
  return words === null ? otherwise : words.join('_');
}

/** Slugs of names, told apart by a number where two come out alike. */
export function slugs(names: readonly string[], otherwise?: string): readonly string[] {
  const taken = new Set<string>();
  return names.map((name) => claim(slug(name, otherwise), taken));
}

/** Makes sure that no id stands twice; of two alike the first keeps its name, whoever wrote the second. */
export function withUniqueIds(stages: readonly Stage[]): readonly Stage[] {
  const taken = new Set<string>();
  return stages.map((stage) => ({
    ...stage,
    steps: stage.steps.map((each) => ({ ...each, id: claim(each.id, taken) })),
  }));
}

function claim(wanted: string, taken: Set<string>): string {
  let id = wanted;
  for (let next = 2; taken.has(id); next++) id = `${wanted}_${next}`;
  taken.add(id);
  return id;
}

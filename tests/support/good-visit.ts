import { type Checklist, type Entries, type Entry, readingsText, type Step } from '../../server/src/engine/index.ts';

export interface VisitDetails {
  readonly date: string;
  /** Path of the installation from where the readings will stand. */
  readonly installation: string;
}

/** The readings of a visit at which every item of a checklist was answered as it should be. */
export function goodVisit(checklist: Checklist, details: VisitDetails): string {
  return readingsText({ ...checklist, installation: details.installation }, goodEntries(checklist, details.date));
}

/** An answer to every item: what is planned or expected, else the middle of the limits. */
export function goodEntries(checklist: Checklist, date: string): Entries {
  const steps = checklist.stages.flatMap((stage) => stage.steps);
  return new Map(
    steps.flatMap((step): [string, Entry][] => (step.kind === 'caution' ? [] : [[step.id, answer(step, steps, date)]])),
  );
}

function answer(step: Step, steps: readonly Step[], date: string): Entry {
  switch (step.kind) {
    case 'hold':
      return { by: 'person in charge', at: `${date}T${HOLD_TIMES[step.id] ?? '08:30'}` };
    case 'set':
      return { done: true, values: [textOf(step.planned)] };
    case 'read':
      return {
        values: (step.fields ?? ['']).map((field, at) =>
          field === 'name' ? (HANDS[at] ?? '') : reading(step, field, steps, date),
        ),
      };
    default:
      return { done: true };
  }
}

const HANDS = ['second hand', 'third hand', 'fourth hand'];

const HOLD_TIMES: Readonly<Record<string, string>> = {
  'running_in.hold': '08:00',
  'surface.hold_energise': '12:00',
  'start.hold': '13:00',
  'start.hold_automatic': '16:00',
  'handover.hold': '17:00',
};

function textOf(planned: Step['planned']): string {
  if (typeof planned === 'boolean') return planned ? 'yes' : 'no';
  return String(planned ?? 'as agreed');
}

const BY_FIELD: Readonly<Record<string, string>> = {
  number: 'M-17',
  'calibrated until': '2027-03-31',
  time: '13:20',
  'led by': 'first hand',
  setting: 'none',
  'as left': 'none',
  reason: 'none',
  remarks: 'none',
  'used up': 'nothing',
};

function reading(step: Step, field: string, steps: readonly Step[], date: string): string {
  if (field === 'date') return date;
  if (step.unit === undefined) return BY_FIELD[field] ?? textOf(step.planned ?? 'in order');
  return String(number(step, steps));
}

/** Sound insulation reads far above what is asked; other things do not. */
const WELL_ABOVE = { insulation: 50, other: 1.1 };

function number(step: Step, steps: readonly Step[]): number {
  const { id, unit, expected, planned, limit } = step;
  if (typeof planned === 'number') return planned;
  if (expected !== undefined) return expected;
  const { min, max } = limit ?? {};
  if (typeof min === 'number' && typeof max === 'number') return Number(((min + max) / 2).toPrecision(4));
  const above = /insulation/.test(id) ? WELL_ABOVE.insulation : WELL_ABOVE.other;
  if (typeof min === 'number') return min > 0 ? Number((min * above).toPrecision(4)) : 20;
  if (typeof max === 'number') return max / 2;
  return likeElsewhere(id, steps) ?? (unit === 'degF' ? 68 : 20);
}

/** What the log and the landed string read, where the checklist expects it at another step. */
const ELSEWHERE: readonly (readonly [RegExp, string])[] = [
  [/^running_in\.resistance\..+$/, 'surface.cable.resistance'],
  [/^start\.log\.current_.$/, 'start.case.target.motor_current'],
  [/^start\.log\.voltage$/, 'start.case.target.drive_voltage'],
  [/^start\.log\.(frequency|intake_pressure|motor_temperature|intake_temperature|rate)$/, 'start.case.target.$1'],
];

function likeElsewhere(id: string, steps: readonly Step[]): number | undefined {
  for (const [pattern, other] of ELSEWHERE) {
    if (pattern.test(id)) return steps.find((step) => step.id === id.replace(pattern, other))?.expected;
  }
  return undefined;
}

import { optionalRows, type Row, rows } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';

const COLUMNS = {
  conductor: 'number?',
  resistance_20: 'number?',
  length: 'number?',
  voltage_class: 'number?',
  'ampacity.current': 'number?',
  handling_temperature_min: 'number?',
  conductor_temperature_max: 'number?',
  insulation: 'text?',
  shape: 'text?',
} as const;
type Cells = Row<typeof COLUMNS>;

export const MAIN_KEY = 'equipment.cable.main';
export const LEAD_KEY = 'equipment.cable.motor_lead';

/** The runs of cable with what their entries and sheets say. */
export const MAIN_RUNS = rows(MAIN_KEY, COLUMNS);
export const LEAD_RUN = optionalRows(LEAD_KEY, COLUMNS);

/** A run of cable with its place and its name. */
export interface Run extends Cells {
  readonly key: string;
  readonly title: string;
}

function named(context: CheckContext, path: string, cells: readonly Cells[] | undefined): readonly Run[] {
  const items = context.itemsAt(path);
  return (cells ?? []).flatMap((each, at) => {
    const item = items[at];
    return item === undefined ? [] : [{ ...each, key: item.key, title: item.title }];
  });
}

export function mainRuns(context: CheckContext, main: readonly Cells[]): readonly Run[] {
  return named(context, MAIN_KEY, main);
}

export function leadRuns(context: CheckContext, lead: readonly Cells[] | undefined): readonly Run[] {
  return named(context, LEAD_KEY, lead);
}

/** Main cable from the top down, then the lead. */
export function allRuns(
  context: CheckContext,
  { main, lead }: { readonly main: readonly Cells[]; readonly lead: readonly Cells[] | undefined },
): readonly Run[] {
  return [...mainRuns(context, main), ...leadRuns(context, lead)];
}

/** Where the length of the main cable stands: of a single run its own entry, of several their list. */
export function lengthKey(context: CheckContext): string {
  const [first, second] = context.itemsAt(MAIN_KEY);
  return first === undefined || second !== undefined ? MAIN_KEY : `${first.key}.length`;
}

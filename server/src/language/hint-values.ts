import { CheckContext, type CheckedFile, type WindowReading, type Worked } from '../engine/index.ts';

/** What is said beside an entry: computed values, each with its words around the number, in the unit of `like`. */
interface Beside {
  readonly key: string;
  readonly id: string;
  readonly words: (shown: string) => string;
  /** What is said where no case has more than nothing of it. */
  readonly none?: string;
}

const BESIDE: readonly Beside[] = [
  {
    key: 'setpoints.transformer.tap',
    id: 'surface.required_voltage',
    words: (shown) => `surface ${shown}`,
  },
  {
    key: 'setpoints.protection.intake_pressure_low.trip',
    id: 'intake.trip_submergence',
    words: (shown) => `${shown} of liquid above the intake`,
    none: 'no liquid above the intake',
  },
  { key: 'equipment.cable.main.length', id: 'cable.resistance', words: (shown) => shown },
  { key: 'equipment.cable.main.length', id: 'cable.voltage_drop', words: (shown) => `drops ${shown}` },
  { key: 'reservoir.pressure', id: 'intake.static_pressure', words: (shown) => `static ${shown} at the intake` },
  {
    key: 'operation.target_rate',
    id: 'inflow.target_share',
    words: (shown) => `${shown} of the most that the well gives`,
  },
  { key: 'operation.stroke.rate', id: 'pump.surface_rate', words: (shown) => `pumps ${shown}` },
  { key: 'operation.frequency', id: 'pump.surface_rate', words: (shown) => `pumps ${shown}` },
  { key: 'fluid.water_cut', id: 'fluid.produced_density', words: (shown) => `liquid of ${shown}` },
  { key: 'setpoints.start.override', id: 'start.fill_time', words: (shown) => `fills in ${shown}` },
  { key: 'setpoints.restart.delay', id: 'restart.refill_time', words: (shown) => `refills in ${shown}` },
];

/** A short text for an entry of an installation, and the same in full. */
export interface HintText {
  readonly key: string;
  readonly label: string;
  readonly tooltip: string;
}

/** What the computation has to say beside entries, one text an entry: its values, and the window of a setpoint. */
export function hintTexts({ worked }: CheckedFile): readonly HintText[] {
  if (worked === undefined) return [];
  const parts = [
    ...BESIDE.flatMap((each) => valuePart(worked, each)),
    ...worked.windows.flatMap((each) => windowPart(worked, each)),
  ];
  return [...new Set(parts.map(({ key }) => key))].map((key) => {
    const own = parts.filter((each) => each.key === key);
    return {
      key,
      label: joined(own.map(({ label }) => label)),
      tooltip: own.map(({ tooltip }) => tooltip).join('\n'),
    };
  });
}

/** Editors cut off what is longer than this, and half a range misleads; the rest is in the tooltip and the hover. */
const LONGEST = 43;

function joined(labels: readonly string[]): string {
  return labels.reduce((whole, label) => {
    const longer = `${whole}; ${label}`;
    return longer.length <= LONGEST ? longer : whole;
  });
}

function valuePart({ evaluation }: Worked, { key, id, words, none }: Beside): readonly HintText[] {
  const node = evaluation.network.byId.get(id);
  if (node === undefined) return [];
  const cases = node.perCase ? evaluation.installation.caseNodes.map((_, at) => at) : [0];
  const numbers = cases.flatMap((at) => evaluation.numberOf(node, at) ?? []);
  if (numbers.length === 0) return [];
  const { title, kind } = node.declaration;
  const [least, most] = [Math.min(...numbers), Math.max(...numbers)];
  const shown = span(new CheckContext(evaluation, 0, ''), least, most, kind, key);
  const over = numbers.length > 1 ? ', least and most of the cases' : '';
  const label = none !== undefined && most <= 0 ? none : words(shown);
  return [{ key, label, tooltip: `${title}: ${shown}${over}` }];
}

function windowPart(worked: Worked, reading: WindowReading): readonly HintText[] {
  const { window, applies, ends } = reading;
  if (!applies || (!Number.isFinite(ends.lower) && !Number.isFinite(ends.upper))) return [];
  const label = windowText(worked, reading);
  return [{ key: window.setpoint, label, tooltip: `${label}, for ${window.title}` }];
}

/** The comfortable range of a setpoint in words; the worksheet and the hover show its bounds. */
export function windowText({ evaluation }: Worked, { window, ends }: WindowReading): string {
  const { lower, upper } = ends;
  const context = new CheckContext(evaluation, 0, '');
  const show = (number: number) => context.show(number, window.kind, window.setpoint);
  if (lower > upper) return 'no value fits its window';
  if (!Number.isFinite(lower)) return Number.isFinite(upper) ? `window up to ${show(upper)}` : 'no window';
  if (!Number.isFinite(upper)) return `window from ${show(lower)}`;
  return `window ${span(context, lower, upper, window.kind, window.setpoint)}`;
}

/** "137.3 to 239.9 V", or one number where both read alike. */
function span(context: CheckContext, low: number, high: number, kind: string, key = ''): string {
  const [from, to] = [context.show(low, kind, key), context.show(high, kind, key)];
  if (from === to) return from;
  const unit = to.replace(/^\S+/, '');
  return unit !== '' && from.endsWith(unit)
    ? `${asFineAs(from.slice(0, -unit.length), to)} to ${to}`
    : `${from} to ${to}`;
}

const DIGITS = 4;

/** A number as fine as a larger one beside it is told: "0.06 to 20 %", not "0.06084 to 20 %". */
function asFineAs(text: string, larger: string): string {
  const decimals = Math.max(0, DIGITS - 1 - Math.floor(Math.log10(Math.abs(Number.parseFloat(larger)))));
  const rounded = Number(Number(text).toFixed(Math.min(decimals, 20)));
  return rounded === 0 || !Number.isFinite(rounded) ? text : String(rounded);
}

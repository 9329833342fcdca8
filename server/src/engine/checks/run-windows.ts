import type { Fix } from '../findings/finding.ts';
import type { CheckTexts } from '../findings/texts.ts';
import { measureIn } from '../quantity/format.ts';
import { capitalise, listed } from '../text/words.ts';
import type { Evaluation } from '../values/evaluation.ts';
import { leafEntries } from '../values/explain.ts';
import { inWorstCorner, type Shifts } from '../windows/corners.ts';
import type { Beyond, Side } from '../windows/declare.ts';
import {
  type BoundReading,
  crossing,
  insideBy,
  readBounds,
  readWindow,
  violated,
  type WindowReading,
} from '../windows/reading.ts';
import { CheckContext } from './context.ts';
import { COMPILED_WINDOWS } from './engine.ts';
import type { Outcome } from './outcome.ts';
import { fixOf, placeIn, relatedPlace } from './run-checks.ts';
import { exchangeWithBound } from './swap.ts';

const MOST_RELATED = 8;

/** Compares every setpoint with the bounds of its window; a window that throws is noted and the others go on. */
export function runWindows(
  evaluation: Evaluation,
  shifts: Shifts,
  today: string,
  outcome: Outcome,
): readonly WindowReading[] {
  return COMPILED_WINDOWS.flatMap((compiled) => {
    const part = `the window of '${compiled.window.setpoint}'`;
    const reading = outcome.attempt(part, () =>
      readWindow(evaluation, compiled, inWorstCorner(compiled, readBounds(evaluation, compiled), shifts)),
    );
    if (reading === undefined) return [];
    outcome.attempt(part, () => new WindowRun(evaluation, reading, today, outcome).run());
    return [reading];
  });
}

class WindowRun {
  readonly #evaluation: Evaluation;
  readonly #reading: WindowReading;
  readonly #context: CheckContext;
  readonly #outcome: Outcome;
  /** Hard bounds that the setpoint is beyond in a window in which nothing can be chosen. */
  readonly #beyond: BoundReading[] = [];

  constructor(evaluation: Evaluation, reading: WindowReading, today: string, outcome: Outcome) {
    this.#evaluation = evaluation;
    this.#reading = reading;
    this.#context = new CheckContext(evaluation, 0, today);
    this.#outcome = outcome;
  }

  run(): void {
    const { window, applies, bounds, missing } = this.#reading;
    const checks = new Set<CheckTexts>(bounds.map(({ bound }) => bound.check));
    if (window.diagnosis !== undefined) checks.add(window.diagnosis.check);
    if (!applies) for (const { id } of [...checks, window.emptiness]) this.#outcome.notApplicable(id);
    else if (missing.length > 0) for (const { id } of checks) this.#outcome.notRun(id, missing);
    else this.#compare();
    if (applies) this.#reportEmpty();
  }

  #compare(): void {
    const beyond = new Set<BoundReading>([...this.#reportSide('lower'), ...this.#reportSide('upper')]);
    for (const reading of this.#reading.bounds) if (!beyond.has(reading)) this.#settle(reading);
    this.#settleDiagnosis(beyond);
  }

  /** A setpoint inside needs no diagnosis; whether it is inside is open while a hard bound is. */
  #settleDiagnosis(beyond: ReadonlySet<BoundReading>): void {
    const id = this.#reading.window.diagnosis?.check.id;
    if (id === undefined || this.#outcome.statuses.get(id)?.status === 'finding') return;
    const open = beyond.size > 0 ? [] : this.#hardMissing();
    if (open.length > 0) this.#outcome.notRun(id, open);
    else this.#outcome.passed(id, undefined);
  }

  #hardMissing(): readonly string[] {
    return this.#reading.bounds.flatMap(({ bound, status, missing }) =>
      bound.hard && status === 'missing' ? missing : [],
    );
  }

  /** The bounds between which nothing can be chosen. */
  #crossing() {
    return crossing(this.#reading, this.#reading.window.choices?.(this.#evaluation));
  }

  #settle(reading: BoundReading): void {
    const { check } = reading.bound;
    if (reading.status === 'not-applicable') this.#outcome.notApplicable(check.id);
    else if (reading.status === 'missing') this.#outcome.notRun(check.id, reading.missing);
    else this.#outcome.passed(check.id, () => this.#margin(reading));
  }

  #margin(reading: BoundReading) {
    const { kind, setpoint: key } = this.#reading.window;
    return measureIn(this.#context.showDifference(insideBy(reading, this.#reading.setpoint as number), kind, key));
  }

  /**
   * Of the checks whose bounds on one side the setpoint is beyond, the one that it misses by least is the mistake; the
   * others follow from it and are named with it. What is wrong is not also called uncomfortable.
   */
  #reportSide(side: Side): readonly BoundReading[] {
    const hard = violated(this.#reading, side, true);
    const soft = violated(this.#reading, side, false);
    const beyond = hard.length > 0 ? hard : soft;
    const mistake = beyond.at(-1)?.bound.check.id;
    // One check may have several bounds: the one that binds is the furthest.
    const root = beyond.find(({ bound }) => bound.check.id === mistake);
    if (root === undefined) return [];
    const following = beyond.filter((each) => each !== root);
    const isDiagnosed = hard.length > 0 && this.#diagnose(root);
    if (!isDiagnosed && hard.length > 0 && this.#isNoChoice()) this.#beyond.push(...hard);
    else if (!isDiagnosed) this.#report(root, following);
    return this.#found([...hard, ...soft]);
  }

  /** With nothing to choose from, whichever is set is wrong: the finding on the window says so for all bounds. */
  #isNoChoice(): boolean {
    return this.#reading.window.choices !== undefined && this.#crossing() !== undefined;
  }

  #found(beyond: readonly BoundReading[]): readonly BoundReading[] {
    for (const { bound } of beyond) this.#outcome.statuses.set(bound.check.id, { status: 'finding' });
    return beyond;
  }

  /** Reports the mistake that explains why the setpoint is beyond a bound, if there is one, with the bound as related. */
  #diagnose(root: BoundReading): boolean {
    const { window, setpoint, ends } = this.#reading;
    const message = window.diagnosis?.explain(setpoint as number, ends, (number) => this.#show(number));
    if (window.diagnosis === undefined || message === undefined) return false;
    const { id, severity } = window.diagnosis.check;
    this.#outcome.report({
      ...this.#measured(root),
      check: id,
      severity,
      message,
      related: [this.#consequence(root), ...this.#basis(root)],
      fixes: [],
    });
    return true;
  }

  #consequence(reading: BoundReading) {
    const { setpoint } = this.#reading.window;
    const message = `so ${reading.bound.check.id}: ${this.#fact(reading)}`;
    return { place: placeIn(this.#evaluation, setpoint), message };
  }

  #report(root: BoundReading, following: readonly BoundReading[]): void {
    const { check } = root.bound;
    this.#outcome.report({
      ...this.#measured(root),
      check: check.id,
      severity: check.severity,
      message: `${this.#fact(root)} ${this.#wayOut(root)}`,
      related: [...following.flatMap((each) => this.#followingPlace(each)), ...this.#basis(root)],
      fixes: [...this.#fixes(), ...this.#exchange(root)],
    });
  }

  /** Where the setpoint stands, in which case, and its value against the bound. */
  #measured(root: BoundReading) {
    const { window, setpoint } = this.#reading;
    return {
      place: placeIn(this.#evaluation, window.setpoint),
      case: this.#caseName(root),
      value: this.#context.measure(setpoint as number, window.kind, window.setpoint),
      limit: this.#context.measure(root.number, window.kind, window.setpoint),
    };
  }

  #fact(root: BoundReading): string {
    const { bound, number } = root;
    const setpoint = this.#reading.setpoint as number;
    const apart = Math.abs(setpoint - number);
    const subject = this.#subject();
    if (bound.says !== undefined) return bound.says(this.#beyondInWords(root));
    if (apart === 0) return `${subject} is at ${this.#limit(root)}: ${bound.consequence}.`;
    const way = bound.side === 'lower' ? 'below' : 'above';
    const { kind, setpoint: key } = this.#reading.window;
    return `${subject} is ${this.#context.showDifference(apart, kind, key)} ${way} ${this.#limit(root)}: ${bound.consequence}.`;
  }

  #beyondInWords(root: BoundReading): Beyond {
    const { kind, setpoint: key } = this.#reading.window;
    const apart = Math.abs((this.#reading.setpoint as number) - root.number);
    return {
      subject: this.#subject(),
      apart: this.#context.showDifference(apart, kind, key),
      limit: this.#show(root.number),
      inCase: `${this.#inCase(root)}${cornerText(root)}`,
    };
  }

  #subject(): string {
    const { window, setpoint } = this.#reading;
    const shown = this.#show(setpoint as number);
    return window.named?.(shown, (key) => this.#context.text(key)) ?? `${capitalise(window.title)} of ${shown}`;
  }

  #limit(reading: BoundReading): string {
    return `${reading.bound.limitName}${this.#inCase(reading)}${cornerText(reading)}, ${this.#show(reading.number)}`;
  }

  #inCase(reading: BoundReading): string {
    const name = this.#caseName(reading);
    return name === undefined ? '' : ` in the case '${name}'`;
  }

  #caseName({ caseIndex }: BoundReading): string | undefined {
    return caseIndex === undefined ? undefined : this.#evaluation.caseName(caseIndex);
  }

  #show(number: number): string {
    const { kind, setpoint } = this.#reading.window;
    return this.#context.show(number, kind, setpoint);
  }

  #wayOut(root: BoundReading): string {
    const { recommended, setpoint, window } = this.#reading;
    if (this.#crossing() !== undefined)
      return 'Nothing fits between its bounds; a finding of its own says which two cross.';
    if (recommended === undefined || recommended === setpoint) return root.bound.check.mend;
    const choice = window.choice?.(this.#evaluation, recommended);
    if (choice === undefined) return `${this.#show(recommended)} is recommended.`;
    return `${capitalise(choice.words)} ${choice.because}.`;
  }

  #exchange({ bound }: BoundReading): readonly Fix[] {
    const offers = exchangeWithBound(this.#context, this.#reading.window.setpoint, bound);
    return offers.flatMap((offer) => fixOf(this.#evaluation, offer) ?? []);
  }

  #fixes(): readonly Fix[] {
    const { window, recommended, setpoint } = this.#reading;
    if (recommended === undefined || recommended === setpoint) return [];
    const choice = window.choice?.(this.#evaluation, recommended) ?? {
      words: this.#show(recommended),
      entries: [{ key: window.setpoint, newText: this.#show(recommended) }],
    };
    const { document } = this.#evaluation.installation;
    const edits = choice.entries.flatMap(({ key, newText }) => {
      const node = document.tree.find(key);
      return node < 0 ? [] : [{ path: document.path, span: document.tree.span(node), newText }];
    });
    const title = window.choice === undefined ? `Set ${window.title} to ${choice.words}` : `Use ${choice.words}`;
    return edits.length === 0 ? [] : [{ title, kind: 'offer', edits }];
  }

  #followingPlace(reading: BoundReading) {
    const way = reading.bound.side === 'lower' ? 'below' : 'above';
    const message = `so it is also ${way} ${this.#limit(reading)}`;
    return relatedPlace(this.#evaluation, { key: this.#reading.window.setpoint, message });
  }

  /** The entries that the bound rests on, as places with their texts. */
  #basis(root: BoundReading) {
    const leaves = leafEntries(this.#evaluation, root.node, root.caseIndex ?? 0);
    return leaves.slice(0, MOST_RELATED).flatMap((key) => {
      const text = this.#evaluation.entryText(key);
      return relatedPlace(this.#evaluation, { key, message: `rests on ${key}${text ? `, ${text}` : ''}` });
    });
  }

  #reportEmpty(): void {
    const { emptiness, diagnosis } = this.#reading.window;
    const isExplained = diagnosis !== undefined && this.#outcome.statuses.get(diagnosis.check.id)?.status === 'finding';
    const pair = this.#crossing();
    const missing = this.#hardMissing();
    if (pair !== undefined && isExplained) this.#outcome.statuses.set(emptiness.id, { status: 'finding' });
    else if (pair !== undefined) this.#reportCrossing(...pair);
    else if (missing.length === 0) this.#outcome.passed(emptiness.id, undefined);
    else this.#outcome.notRun(emptiness.id, missing);
  }

  #reportCrossing(lower: BoundReading, upper: BoundReading): void {
    const { window } = this.#reading;
    const { id, severity, mend } = window.emptiness;
    const span = `it must be at least ${this.#limit(lower)}, and at most ${this.#limit(upper)}`;
    this.#outcome.report({
      check: id,
      severity,
      message: `${window.choices === undefined ? 'No value of' : 'None of the choices for'} ${window.title} fits: ${span}.${this.#choicesInWords()} ${mend}`,
      place: placeIn(this.#evaluation, window.setpoint),
      case: this.#caseName(lower),
      value: this.#context.measure(lower.number, window.kind, window.setpoint),
      limit: this.#context.measure(upper.number, window.kind, window.setpoint),
      related: [...this.#beyond.map((each) => this.#consequence(each)), ...this.#basis(lower), ...this.#basis(upper)],
    });
  }

  #choicesInWords(): string {
    const choices = this.#reading.window.choices?.(this.#evaluation) ?? [];
    if (choices.length === 0) return '';
    return ` The choices are ${listed(choices.map((each) => this.#show(each)))}.`;
  }
}

/** Which ends of toleranced entries a bound was taken at: " with well.intake.tvd at its low end". */
function cornerText({ corner }: BoundReading): string {
  if (corner.length === 0) return '';
  return ` with ${listed(corner.map(({ key, end }) => `${key} at its ${end} end`))}`;
}

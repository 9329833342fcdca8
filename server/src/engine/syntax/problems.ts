import type { Problem, TextFix } from '../text/problem.ts';
import type { Span } from '../text/span.ts';
import { LIMITS } from './limits.ts';

/** Collects the problems of one text: one for each cause, in the order of the text, and no flood of them. */
export class ProblemList {
  readonly #problems: Problem[] = [];
  #omitted = 0;

  /** Adds a problem, or replaces the last one if it is of the same check and begins at the same character: the cause has grown. */
  put(check: string, span: Span, message: string, fixes: readonly TextFix[] = []): void {
    const problem = { check, message, span, fixes };
    const last = this.#problems.at(-1);
    if (last?.check === check && last.span.start === span.start) this.#problems[this.#problems.length - 1] = problem;
    else if (this.#problems.length < LIMITS.problems) this.#problems.push(problem);
    else this.#omitted++;
  }

  /** Whether a problem already touches the span: what follows from it is no cause of its own. */
  touches(span: Span): boolean {
    return this.#problems.some((problem) => problem.span.start <= span.end && span.start <= problem.span.end);
  }

  addAll(other: ProblemList): void {
    for (const { check, span, message, fixes } of other.#problems) this.put(check, span, message, fixes);
    this.#omitted += other.#omitted;
  }

  finish(): readonly Problem[] {
    const sorted = this.#problems.sort((a, b) => a.span.start - b.span.start);
    const last = sorted.at(-1);
    if (this.#omitted === 0 || last === undefined) return sorted;
    const message = `${last.message} (${this.#omitted} more problems are not listed; mend these first.)`;
    return [...sorted.slice(0, -1), { ...last, message }];
  }
}

// How the bench measures: medians of runs that take turns, so that a busy machine slows all of them alike.
import { execFileSync } from 'node:child_process';

export function times(count, make) {
  return Array.from({ length: count }, (_, at) => make(at));
}

export function timed(run) {
  const from = performance.now();
  run();
  return performance.now() - from;
}

export function median(numbers) {
  return percentile(numbers, 0.5);
}

export function percentile(numbers, share) {
  return [...numbers].sort((a, b) => a - b)[Math.min(numbers.length - 1, Math.floor(numbers.length * share))];
}

/** The medians of runs by name, ms; each turn runs all of them, so many times. */
export function takingTurns(runs, turns) {
  const taken = Object.fromEntries(Object.keys(runs).map((name) => [name, []]));
  for (let turn = 0; turn < turns; turn++) {
    for (const [name, run] of Object.entries(runs)) taken[name].push(timed(() => run(turn)));
  }
  return Object.fromEntries(Object.entries(taken).map(([name, all]) => [name, median(all)]));
}

/** Runs Node to its end; a check that finds something ends with 1. */
export function node(args, cwd) {
  try {
    execFileSync(process.execPath, args, { cwd, stdio: 'ignore' });
  } catch (error) {
    if (error.status !== 1) throw error;
  }
}

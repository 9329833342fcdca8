import { Refusal } from '../host/refusal.ts';
import { visible } from '../render/escape.ts';
import { type Paint, PLAIN } from '../render/paint.ts';

/** Where text goes, and the bytes of a form. */
export interface Sink {
  write(text: string | Uint8Array): unknown;
  readonly isTTY?: boolean | undefined;
  /** Characters on a line of the terminal. */
  readonly columns?: number | undefined;
}

/** All that a command sees of the process that it runs in. */
export interface Surroundings {
  /** Working directory, absolute with `/`. */
  readonly cwd: string;
  readonly stdout: Sink;
  readonly stderr: Sink;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** The day by the clock, `2026-03-14`. */
  readonly today: string;
  /** How colours are set, where they are wanted. */
  readonly colours: Paint;
  /** What a worker that helps to check is started from; without it all is done here. */
  readonly worker?: URL | undefined;
  /** Ends a run early, when the person who started it says so. */
  readonly interrupted?: AbortSignal | undefined;
  /** Waits until what was written to standard output is taken, so that it does not pile up. */
  readonly drained?: (() => Promise<void>) | undefined;
  readonly version?: string | undefined;
}

/** Exit statuses; the last one is what a shell gives a program that an interrupt ended. */
export const EXIT = { done: 0, findings: 1, failed: 2, interrupted: 130 } as const;

export { Refusal };

/** Runs a command; a refusal becomes a line on standard error and the status 2. */
export async function running(surroundings: Surroundings, command: () => Promise<number>): Promise<number> {
  try {
    return await command();
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    say(surroundings, error.message);
    return EXIT.failed;
  }
}

/** A line on standard error. */
export function say({ stderr }: Surroundings, message: string): void {
  stderr.write(`setproof: ${visible(message)}\n`);
}

/** Colours where they were asked for, else where a terminal shows them and nobody objects (no-color.org). */
function paintFor(asked: boolean | undefined, { stdout, env, colours }: Surroundings): Paint {
  const isWelcome = (env.NO_COLOR ?? '') === '' && stdout.isTTY === true && env.TERM !== 'dumb';
  return (asked ?? isWelcome) ? colours : PLAIN;
}

const USUAL_WIDTH = 100;
const NARROWEST = 40;
const WIDEST = 120;

/** Characters on a line: the terminal's, within what can be read; in a file the same everywhere. */
function widthOf({ isTTY, columns }: Omit<Sink, 'write'>): number {
  if (isTTY !== true || columns === undefined) return USUAL_WIDTH;
  return Math.min(Math.max(columns, NARROWEST), WIDEST);
}

/** Paint and width of a text: for standard output, or for a file. */
export function styleOf(
  { output, color }: { readonly output?: string | undefined; readonly color?: boolean | undefined },
  surroundings: Surroundings,
): { readonly paint: Paint; readonly width: number } {
  if (output !== undefined) return { paint: PLAIN, width: widthOf({}) };
  return { paint: paintFor(color, surroundings), width: widthOf(surroundings.stdout) };
}

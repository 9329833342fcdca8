import { absolutePath } from '../host/node/paths.ts';
import { reasonOf } from '../host/node/reasons.ts';
import { WholeFile } from '../host/node/write.ts';
import { Refusal, type Surroundings } from './surroundings.ts';

/** Where a report goes: standard output, or a file that is there whole or not at all. */
export interface Output {
  write(text: string | Uint8Array): void;
  finish(): void;
  abandon(): void;
}

/** @throws Refusal where the file cannot be written */
export function openOutput(name: string | undefined, { cwd, stdout }: Surroundings): Output {
  if (name === undefined) return { write: (text) => void stdout.write(text), finish: () => {}, abandon: () => {} };
  const file = refused(name, () => new WholeFile(absolutePath(cwd, name)));
  return {
    write: (text) => refused(name, () => file.write(text)),
    finish: () => refused(name, () => file.finish()),
    abandon: () => file.abandon(),
  };
}

/** A terminal would take the bytes of a PDF for commands. @throws Refusal where they would go to one */
export function refuseTerminal(
  what: string,
  { output }: { readonly output?: string | undefined },
  { stdout }: Surroundings,
): void {
  if (output === undefined && stdout.isTTY === true)
    throw new Refusal(`${what} is not for the terminal: name a file with --output, or send it on to a program.`);
}

/** Writes one text, or the bytes of a form. @throws Refusal where it cannot be written */
export function writeOutput(name: string | undefined, text: string | Uint8Array, surroundings: Surroundings): void {
  const output = openOutput(name, surroundings);
  try {
    output.write(text);
  } catch (error) {
    output.abandon();
    throw error;
  }
  output.finish();
}

function refused<T>(name: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    throw new Refusal(`'${name}' cannot be written: ${reasonOf(error)}.`);
  }
}

import { CATALOGUE, LIMITS, nearest } from '../engine/index.ts';
import { checkPage, checksList } from '../render/text/checks.ts';
import { EXIT, Refusal, running, type Surroundings, styleOf } from './surroundings.ts';

export interface ChecksArguments {
  /** A check to explain; all are listed without it. */
  readonly id?: string | undefined;
  readonly color?: boolean | undefined;
}

/** `setproof checks`: lists the checks, or explains one. */
export function checks(args: ChecksArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const style = styleOf({ color: args.color }, surroundings);
    surroundings.stdout.write(args.id === undefined ? checksList(CATALOGUE, style) : explain(args.id, style));
    return EXIT.done;
  });
}

function explain(id: string, options: Parameters<typeof checkPage>[2]): string {
  const found = CATALOGUE.find((check) => check.id === id);
  if (found === undefined) throw new Refusal(`There is no check '${id}'. ${hint(id)}`);
  const limits = LIMITS.filter(({ name }) => name === id || name.startsWith(`${id}.`));
  return checkPage(found, limits, options);
}

function hint(id: string): string {
  const near = nearest(
    id,
    CATALOGUE.map((check) => check.id),
  );
  return near === undefined ? "'setproof checks' lists them." : `Was '${near}' meant?`;
}

import { beginning, CATALOGUE, LIMITS, nearest } from '../engine/index.ts';
import { checkPage, checksList } from '../render/text/checks.ts';
import { EXIT, Refusal, running, type Surroundings, styleOf } from './surroundings.ts';

export interface ChecksArguments {
  /** A check to explain, or a subject to list; all are listed without it. */
  readonly id?: string | undefined;
  readonly color?: boolean | undefined;
}

/** `setproof checks`: lists the checks or those of a subject, or explains one. */
export function checks(args: ChecksArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const style = styleOf({ color: args.color }, surroundings);
    surroundings.stdout.write(args.id === undefined ? checksList(CATALOGUE, style) : told(args.id, style));
    return EXIT.done;
  });
}

type Style = Parameters<typeof checkPage>[2];

/** A check in full, or the checks of a subject. */
function told(asked: string, style: Style): string {
  const ofSubject = CATALOGUE.filter(({ id }) => id.startsWith(`${asked}.`));
  return ofSubject.length > 0 ? checksList(ofSubject, style) : explain(asked, style);
}

function explain(id: string, options: Style): string {
  const found = CATALOGUE.find((check) => check.id === id);
  if (found === undefined) throw new Refusal(`There is no check '${id}'. ${hint(id)}`);
  const limits = LIMITS.filter(({ name }) => name === id || name.startsWith(`${id}.`));
  return checkPage(found, limits, options);
}

function hint(id: string): string {
  const ids = CATALOGUE.map((check) => check.id);
  const near = nearest(id, ids) ?? beginning(id, ids);
  return near === undefined ? "'setproof checks' lists them." : `Was '${near}' meant?`;
}

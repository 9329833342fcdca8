import { type OpenSetpoint, propose as proposeFor } from '../engine/index.ts';
import { writeWhole } from '../host/node/write.ts';
import { counted } from '../render/text/lines.ts';
import { openInstallation } from './installation.ts';
import { writeOutput } from './output.ts';
import type { ScopeArguments } from './scope.ts';
import { EXIT, running, type Surroundings, say } from './surroundings.ts';

export interface ProposeArguments extends ScopeArguments {
  readonly file: string;
  readonly inPlace?: boolean | undefined;
  readonly output?: string | undefined;
}

/**
 * `setproof propose`: the document with the setpoints that it lacks written from their windows, each with a comment that
 * says what it rests on. What is there is never touched. 0 when it is written, 2 if it cannot be.
 */
export function propose(args: ProposeArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const { file, scope, repository } = openInstallation(args.file, args, surroundings);
    const { path } = file.document;
    const { text, entries, open } = proposeFor(file, scope.options.today, (changed) =>
      repository.update([{ path, text: changed, root: repository.rootOf(path) }]).check(path),
    );
    const said = entries.length === 0 ? 'No setpoint was written' : `${counted(entries.length, 'setpoint')} written`;
    say(surroundings, `${said}${entries.length === 0 ? '' : `: ${entries.map(({ key }) => key).join(', ')}`}.`);
    for (const each of open) say(surroundings, openText(each));
    say(surroundings, 'A proposal is a beginning: maker’s manual, local codes and licensed practice come first.');
    if (args.inPlace === true) writeWhole(path, text);
    else writeOutput(args.output, text, surroundings);
    return EXIT.done;
  });
}

const MOST_MISSING = 4;

function openText({ key, missing }: OpenSetpoint): string {
  if (missing.length === 0)
    return `'${key}' was not written: nothing fits between its bounds, or its rule lacks an entry.`;
  const rest = missing.length - MOST_MISSING;
  const shown = missing.slice(0, MOST_MISSING).map((each) => `'${each}'`);
  return `'${key}' was not written: it lacks ${shown.join(', ')}${rest > 0 ? ` and ${rest} more` : ''}.`;
}

import { buildChecklist, type Checklist, type UnitChoice } from '../engine/index.ts';
import { openInstallation } from './installation.ts';
import { writeOutput } from './output.ts';
import type { ScopeArguments } from './scope.ts';
import { EXIT, running, type Surroundings } from './surroundings.ts';

export interface ChecklistArguments extends ScopeArguments {
  readonly file: string;
  readonly format?: 'html' | 'markdown' | 'json' | undefined;
  readonly paper?: 'a4' | 'letter' | undefined;
  readonly units?: UnitChoice | undefined;
  readonly output?: string | undefined;
}

/** `setproof checklist`: 0 when the checklist is written, whatever is wrong with the file; 2 if it cannot be. */
export function checklist(args: ChecklistArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const { file, scope } = openInstallation(args.file, args, surroundings);
    const built = buildChecklist(file, { units: args.units ?? 'as-written' });
    const named = { ...built, installation: scope.nameOf(built.installation) };
    writeOutput(args.output, await written(named, args), surroundings);
    return EXIT.done;
  });
}

async function written(list: Checklist, { format, paper }: ChecklistArguments): Promise<string> {
  switch (format) {
    case 'json':
      return (await import('../render/checklist/json.ts')).renderChecklistJson(list);
    case 'markdown':
      return (await import('../render/checklist/markdown.ts')).renderChecklistMarkdown(list);
    default:
      return (await import('../render/checklist/html.ts')).renderChecklistHtml(list, { paper: paper ?? 'a4' });
  }
}

import { buildChecklist, type Checklist, type UnitChoice } from '../engine/index.ts';
import { openInstallation } from './installation.ts';
import { refuseTerminal, writeOutput } from './output.ts';
import type { ScopeArguments } from './scope.ts';
import { EXIT, running, type Surroundings } from './surroundings.ts';

export interface ChecklistArguments extends ScopeArguments {
  readonly file: string;
  readonly format?: 'html' | 'pdf' | 'field' | 'markdown' | 'json' | undefined;
  readonly paper?: 'a4' | 'letter' | undefined;
  readonly units?: UnitChoice | undefined;
  readonly output?: string | undefined;
}

/** `setproof checklist`: 0 when the checklist is written, whatever is wrong with the file; 2 if it cannot be. */
export function checklist(args: ChecklistArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    if (args.format === 'pdf') refuseTerminal('A PDF form', args, surroundings);
    const { file, scope } = openInstallation(args.file, args, surroundings);
    const built = buildChecklist(file, { units: args.units ?? 'as-written' });
    const named = { ...built, installation: scope.nameOf(built.installation) };
    writeOutput(args.output, await written(named, args), surroundings);
    return EXIT.done;
  });
}

async function written(list: Checklist, { format, paper }: ChecklistArguments): Promise<string | Uint8Array> {
  switch (format) {
    case 'pdf':
      return (await import('../render/checklist/pdf.ts')).renderChecklistPdf(list, { paper: paper ?? 'a4' });
    case 'field':
      return (await import('../render/checklist/field.ts')).renderChecklistField(list);
    case 'json':
      return (await import('../render/checklist/json.ts')).renderChecklistJson(list);
    case 'markdown':
      return (await import('../render/checklist/markdown.ts')).renderChecklistMarkdown(list);
    default:
      return (await import('../render/checklist/html.ts')).renderChecklistHtml(list, { paper: paper ?? 'a4' });
  }
}

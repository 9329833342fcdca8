import { type OpenedInstallation, openInstallation } from './installation.ts';
import { writeOutput } from './output.ts';
import type { ScopeArguments } from './scope.ts';
import { EXIT, running, type Surroundings, styleOf } from './surroundings.ts';

export interface WorksheetArguments extends ScopeArguments {
  readonly file: string;
  readonly format?: 'text' | 'json' | 'html' | 'markdown' | undefined;
  readonly paper?: 'a4' | 'letter' | undefined;
  readonly output?: string | undefined;
  readonly color?: boolean | undefined;
}

/** `setproof worksheet`: 0 when the worked values are written, whatever is wrong with the file; 2 if they cannot be. */
export function worksheet(args: WorksheetArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const opened = openInstallation(args.file, args, surroundings);
    writeOutput(args.output, await written(opened, args, surroundings), surroundings);
    return EXIT.done;
  });
}

function written(opened: OpenedInstallation, args: WorksheetArguments, surroundings: Surroundings): Promise<string> {
  switch (args.format) {
    case 'json':
      return asJson(opened);
    case 'html':
      return asHtml(opened, args);
    case 'markdown':
      return asMarkdown(opened);
    default:
      return asText(opened, args, surroundings);
  }
}

async function asHtml({ file, scope }: OpenedInstallation, { paper }: WorksheetArguments): Promise<string> {
  const { renderWorksheetHtml } = await import('../render/worksheet/html.ts');
  return renderWorksheetHtml(file, { paper: paper ?? 'a4', today: scope.options.today, nameOf: scope.nameOf });
}

async function asMarkdown({ file, scope }: OpenedInstallation): Promise<string> {
  const { renderWorksheetMarkdown } = await import('../render/worksheet/markdown.ts');
  return renderWorksheetMarkdown(file, { today: scope.options.today, nameOf: scope.nameOf });
}

async function asJson({ file, worked, scope }: OpenedInstallation): Promise<string> {
  const { worksheetJson } = await import('../render/json/worksheet.ts');
  return worksheetJson(file, worked, scope.nameOf(file.document.path));
}

async function asText(
  { file, scope }: OpenedInstallation,
  args: WorksheetArguments,
  surroundings: Surroundings,
): Promise<string> {
  const { worksheetOf } = await import('../render/worksheet/model.ts');
  const { worksheetText } = await import('../render/text/worksheet.ts');
  const sheet = worksheetOf(file, scope.options.today);
  return worksheetText(sheet, { nameOf: scope.nameOf, ...styleOf(args, surroundings) });
}

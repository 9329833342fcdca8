// The command line. What a command needs is loaded when it is asked for, so that each starts fast.
import { once } from 'node:events';
import { Argument, Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { FORMATS } from '../commands/checking/setup.ts';
import type { Surroundings } from '../commands/surroundings.ts';
import { reasonOf } from '../host/node/reasons.ts';
import { colours } from './colours.ts';
import { localDate } from './local-date.ts';

declare const SETPROOF_VERSION: string;

const FAILED = 2;

function surroundings(): Surroundings {
  return {
    cwd: process.cwd().replaceAll('\\', '/'),
    stdout: process.stdout,
    stderr: process.stderr,
    env: process.env,
    today: localDate(),
    colours,
    version: SETPROOF_VERSION,
    worker: new URL('./check-worker.js', import.meta.url),
    drained,
  };
}

async function drained(): Promise<void> {
  if (process.stdout.writableNeedDrain) await once(process.stdout, 'drain');
}

/** Tells when somebody wants a run to end; a second time ends it at once. */
function interruption(): AbortSignal {
  const controller = new AbortController();
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => controller.abort());
  return controller.signal;
}

/** Collects an option that may be given several times; only words of the list, if there is one. */
function several(words?: readonly string[]) {
  return (value: string, before: readonly string[] = []): readonly string[] => {
    if (words !== undefined && !words.includes(value)) {
      throw new InvalidArgumentError(`It is one of ${words.join(', ')}.`);
    }
    return [...before, value];
  };
}

function choice(flags: string, text: string, words: readonly string[]): Option {
  return new Option(flags, text).choices(words);
}

function paper(printed: string): Option {
  return choice('--paper <size>', `paper that the ${printed} is printed on (default: a4)`, ['a4', 'letter']);
}

const ROOT = ['--root <folder>', 'folder that references may not leave, instead of the repository'] as const;
const POLICY = ['--policy <file>', 'policy for all documents, instead of the nearest one'] as const;
const TODAY = ['--today <date>', 'day of the check, such as 2026-03-14, instead of the clock'] as const;
const COLOR = ['--color', 'colours even where no terminal is'] as const;
const NO_COLOR = ['--no-color', 'no colours; the variable NO_COLOR says the same'] as const;
const OUTPUT = ['--output <file>', 'write to a file instead of standard output'] as const;

/** A command with the options that many of ours share. */
class SharingCommand extends Command {
  override createCommand(name?: string): SharingCommand {
    return new SharingCommand(name);
  }

  /** By what the documents are judged. */
  documents(): this {
    return this.option(...POLICY)
      .option(...ROOT)
      .option(...TODAY);
  }

  colours(): this {
    return this.option(...COLOR).option(...NO_COLOR);
  }
}

function addCheck(program: SharingCommand): void {
  program
    .command('check')
    .description('check documents; the findings, each at its place, with the way out')
    .argument('[paths...]', 'files, and folders to walk through; the working directory without any')
    .addOption(choice('--format <format>', 'form of the report (default: text)', FORMATS))
    .option(...OUTPUT)
    .option('--report <format=file>', 'one more report, into a file; may be given several times', several())
    .addOption(
      choice('--fail-on <severity>', 'least severity that counts as failing', ['error', 'warning', 'note']).default(
        'error',
      ),
    )
    .option(
      '--show <status>',
      'list checks that passed, or not-run, too; may be given twice',
      several(['passed', 'not-run']),
    )
    .option('--changed-since <revision>', 'only documents changed since a revision of git, and those that rest on them')
    .option('--accepted <file>', 'list of findings that are accepted for now; new and worse ones count')
    .option('--write-accepted <file>', 'write that list, with all that would count now')
    .option('--shard <i/n>', 'only one of n parts of the documents, such as 2/8; a document stays in its part')
    .option(
      '--jobs <number>',
      'workers that share the work (default: one for each processor, if there is enough to do)',
    )
    .documents()
    .colours()
    .addHelpText(
      'after',
      `
Ends with 0 if there is no finding that counts, 1 if there is, and 2 if something could not be checked.
Of the files in a folder only those are read that end in .yaml or .yml, and only documents of Setproof are checked.`,
    )
    .action(async (paths: string[], options: object) => {
      const { check } = await import('../commands/check.ts');
      process.exitCode = await check({ ...options, paths }, { ...surroundings(), interrupted: interruption() });
    });
}

function addWorksheet(program: SharingCommand): void {
  program
    .command('worksheet')
    .description('the worked values of an installation, case by case, with formulas, inputs and sources')
    .argument('<file>', 'the installation')
    .addOption(
      choice('--format <format>', 'form of the worksheet (default: text)', ['text', 'json', 'html', 'markdown']),
    )
    .addOption(paper('page'))
    .option(...OUTPUT)
    .documents()
    .colours()
    .action(async (file: string, options: object) => {
      const { worksheet } = await import('../commands/worksheet.ts');
      process.exitCode = await worksheet({ ...options, file }, surroundings());
    });
}

function addChecklist(program: SharingCommand): void {
  program
    .command('checklist')
    .description('the checklist of an installation: what to take, inspect, connect, set and read, with its limits')
    .argument('<file>', 'the installation')
    .addOption(
      choice(
        '--format <format>',
        'html to print, pdf to fill in, field: a page to fill in without a network (default: html)',
        ['html', 'pdf', 'field', 'markdown', 'json'],
      ),
    )
    .addOption(paper('page'))
    .addOption(
      choice('--units <units>', 'units of the numbers (default: as-written)', ['as-written', 'metric', 'oilfield']),
    )
    .option(...OUTPUT)
    .documents()
    .action(async (file: string, options: object) => {
      const { checklist } = await import('../commands/checklist.ts');
      process.exitCode = await checklist({ ...options, file }, surroundings());
    });
}

function addCompare(program: SharingCommand): void {
  program
    .command('compare')
    .description('what changed between two files, folders or revisions: entries, margins, values, findings, checks')
    .argument('[paths...]', 'two files or two folders, before and after; with --git, those to compare (default: all)')
    .option('--git <revisions>', 'REV1..REV2, REV1...REV2 (since they parted), or REV against the files as they are')
    .addOption(
      choice('--format <format>', 'form of the comparison (default: text)', ['text', 'json', 'markdown', 'html']),
    )
    .option('--rewritten', 'list the entries too that say the same in another unit or spelling')
    .addOption(paper('page'))
    .option(...OUTPUT)
    .documents()
    .colours()
    .addHelpText(
      'after',
      `
Ends with 0 when the comparison is written, whatever it says, and 2 if not all could be compared.
A changed data sheet or policy is followed to every installation that uses it.`,
    )
    .action(async (paths: string[], options: object) => {
      const { compare } = await import('../commands/compare.ts');
      process.exitCode = await compare({ ...options, paths }, surroundings());
    });
}

function addDeviations(program: SharingCommand): void {
  program
    .command('deviations')
    .description(
      'what the installations of a fleet accept: the check, up to what, why, by whom, until when, in force or not',
    )
    .argument('[paths...]', 'files, and folders to walk through; the working directory without any')
    .addOption(choice('--format <format>', 'form of the list (default: text)', ['text', 'json', 'markdown']))
    .option(...OUTPUT)
    .documents()
    .colours()
    .action(async (paths: string[], options: object) => {
      const { deviations } = await import('../commands/deviations.ts');
      process.exitCode = await deviations({ ...options, paths }, surroundings());
    });
}

function addReadings(program: SharingCommand): void {
  program
    .command('readings')
    .description('bring a filled checklist back as a readings document, check one, or tell it as a handover report')
    .argument('<file>', 'a filled PDF form, a saved field page, form fields as JSON, or a readings document')
    .option('--installation <file>', 'the installation that was visited, where it is not where the form says')
    .addOption(
      choice('--format <format>', 'the document (default), or a handover report of it', [
        'yaml',
        'handover-html',
        'handover-pdf',
        'handover-markdown',
      ]),
    )
    .addOption(paper('report'))
    .option(...OUTPUT)
    .documents()
    .colours()
    .addHelpText(
      'after',
      `
Of a form every field is told of: what is filled, empty, unknown, or cannot be read and is kept as it was typed.
A file that is a readings document already is checked, and ends as 'setproof check' does.`,
    )
    .action(async (file: string, options: object) => {
      const { readings } = await import('../commands/readings.ts');
      process.exitCode = await readings({ ...options, file }, surroundings());
    });
}

function addPropose(program: SharingCommand): void {
  program
    .command('propose')
    .description('the installation with the setpoints that it lacks written from their windows; none there is touched')
    .argument('<file>', 'the installation')
    .option('--in-place', 'write into the file itself')
    .option(...OUTPUT)
    .documents()
    .action(async (file: string, options: object) => {
      const { propose } = await import('../commands/propose.ts');
      process.exitCode = await propose({ ...options, file }, surroundings());
    });
}

function addChecks(program: SharingCommand): void {
  program
    .command('checks')
    .description('list the checks by subject, or explain one: why it is made, how to mend what it finds')
    .argument('[id]', 'a check, such as tap.below-window, or a subject, such as tap')
    .colours()
    .action(async (id: string | undefined, options: object) => {
      const { checks } = await import('../commands/checks.ts');
      process.exitCode = await checks({ ...options, id }, surroundings());
    });
}

function addNew(program: SharingCommand): void {
  program
    .command('new')
    .description('a commented document to begin with; a file that is there is left alone')
    .addArgument(
      new Argument('<kind>', 'installation, pump, motor, cable, transformer, drive, gauge, readings or policy'),
    )
    .argument('[file]', 'file to write; standard output without one')
    .addOption(choice('--lift <lift>', 'how the well is lifted', ['linear', 'rotary']))
    .action(async (kind: string, file: string | undefined, options: object) => {
      const { newDocument } = await import('../commands/new.ts');
      process.exitCode = await newDocument({ ...options, kind, file }, surroundings());
    });
}

function addTidy(program: SharingCommand): void {
  program
    .command('tidy')
    .description('spell units as they are written here and mend what is a matter of spelling; no value is changed')
    .argument('[paths...]', 'files, and folders to walk through; the working directory without any')
    .option('--in-place', 'change the files, all of them or none, instead of showing what would change')
    .option(...ROOT)
    .action(async (paths: string[], options: object) => {
      const { tidy } = await import('../commands/tidy.ts');
      process.exitCode = await tidy({ ...options, paths }, surroundings());
    });
}

function commandLine(): SharingCommand {
  const program = new SharingCommand('setproof')
    .description('Checks the settings of a submersible pump before anyone drives to the well.')
    .version(SETPROOF_VERSION, '--version', 'say the version')
    .helpOption('--help', 'say how this is used')
    .helpCommand(false)
    .exitOverride()
    .showSuggestionAfterError()
    .configureHelp({ helpWidth: 100 })
    .addHelpText(
      'after',
      `
Examples:
  setproof check                         check everything below this folder
  setproof check wells/a2-07.yaml        check one well, with the data sheets that it refers to
  setproof worksheet wells/a2-07.yaml    see the numbers behind its settings
  setproof checks tap.below-window       see what a check is about

It reads files and writes what it is asked to write; it uses no network. The maker's manual, the site's
rules, local codes and licensed practice come before anything that it says.`,
    );
  for (const add of [
    addCheck,
    addWorksheet,
    addChecklist,
    addReadings,
    addPropose,
    addCompare,
    addDeviations,
    addTidy,
    addChecks,
    addNew,
  ])
    add(program);
  for (const command of program.commands) command.exitOverride().helpOption('--help', 'say how this is used');
  return program;
}

/** A reader that closes its end early, such as `head`, is no failure; a disk that is full is one. */
function endWithReader(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit();
    process.stderr.write(`setproof: Standard output cannot be written: ${reasonOf(error)}.\n`);
    process.exit(FAILED);
  });
}

async function main(): Promise<void> {
  endWithReader();
  try {
    await commandLine().parseAsync(process.argv);
  } catch (error) {
    process.exitCode = error instanceof CommanderError && error.exitCode === 0 ? 0 : FAILED;
    if (error instanceof CommanderError) return;
    const reason = error instanceof Error ? (error.stack ?? error.message) : String(error);
    process.stderr.write(`setproof: Setproof failed itself. Please report it with this:\n${reason}\n`);
  }
}

void main();

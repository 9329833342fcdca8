import {
  type BroughtBack,
  bringBack,
  buildChecklist,
  buildHandover,
  type CheckedFile,
  FORM_FIELDS,
  type FormFields,
  folderOf,
  type Handover,
  type Repository,
  savedIn,
  UNIT_CHOICES,
  type UnitChoice,
} from '../engine/index.ts';
import { decodeUtf8 } from '../host/node/decode.ts';
import { readFilledFile } from '../host/node/filled-file.ts';
import { loadDocuments } from '../host/node/load.ts';
import { absolutePath, relativePath } from '../host/node/paths.ts';
import { isPdf, readPdfForm } from '../host/node/pdf-form.ts';
import { counted } from '../render/text/lines.ts';
import { check } from './check.ts';
import { openInstallation } from './installation.ts';
import { refuseTerminal, writeOutput } from './output.ts';
import { type ScopeArguments, scopeOf } from './scope.ts';
import { EXIT, Refusal, running, type Surroundings, say } from './surroundings.ts';

type HandoverFormat = 'handover-html' | 'handover-pdf' | 'handover-markdown';

export interface ReadingsArguments extends ScopeArguments {
  /** A filled PDF form, a saved field page, the fields of a form as JSON, or a `readings/1` document. */
  readonly file: string;
  /** The installation that was visited, where it is not where the form says. */
  readonly installation?: string | undefined;
  readonly format?: 'yaml' | HandoverFormat | undefined;
  readonly paper?: 'a4' | 'letter' | undefined;
  readonly output?: string | undefined;
  readonly color?: boolean | undefined;
}

/**
 * `setproof readings`: brings what was filled in at the well back as a `readings/1` document, 0 when it is written, and
 * 2 if it cannot be. A document that is one already is checked, with the status of `check`; or it is told as a
 * handover report, 0 when that is written.
 */
export function readings(args: ReadingsArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    if (args.format === 'handover-pdf') refuseTerminal('A PDF', args, surroundings);
    const given = await openGiven(args.file, surroundings);
    if ('fields' in given) return ofForm(given.fields, args, surroundings);
    if (isHandover(args)) return ofDocument(given.document, args, surroundings);
    if (given.isPage) return written(given.document, args, surroundings);
    return check({ ...args, paths: [args.file], format: 'text' }, surroundings);
  });
}

function isHandover({ format }: ReadingsArguments): boolean {
  return format !== undefined && format !== 'yaml';
}

type Given = { readonly fields: FormFields } | { readonly document: string; readonly isPage: boolean };

async function openGiven(name: string, { cwd }: Surroundings): Promise<Given> {
  const reading = readFilledFile(absolutePath(cwd, name));
  if ('refused' in reading) throw new Refusal(`'${name}' cannot be read: ${reading.refused}.`);
  if (isPdf(reading.bytes)) {
    const form = await readPdfForm(reading.bytes);
    if ('refused' in form) throw new Refusal(`'${name}' cannot be brought back. ${form.refused}`);
    return form;
  }
  const text = decodeUtf8(reading.bytes);
  const saved = savedIn(text);
  if ('refused' in saved) throw new Refusal(`'${name}' cannot be brought back. ${saved.refused}`);
  return 'fields' in saved ? saved : { ...saved, isPage: saved.document !== text };
}

const { fingerprint: FINGERPRINT, installation: INSTALLATION } = FORM_FIELDS;

async function ofForm(fields: FormFields, args: ReadingsArguments, surroundings: Surroundings): Promise<number> {
  if (fields.size === 0) {
    throw new Refusal(
      `'${args.file}' is a PDF without fields, printed or scanned: only the form itself, filled in and saved in a viewer, can be brought back.`,
    );
  }
  if (!fields.has(FINGERPRINT)) {
    throw new Refusal(
      `'${args.file}' is a form of something else: it has ${counted(fields.size, 'field')}, and none of them is '${FINGERPRINT}'.`,
    );
  }
  const named = args.installation ?? fields.get(INSTALLATION)?.trim() ?? '';
  if (named === '')
    throw new Refusal(`'${args.file}' does not say whose checklist it is; name it with --installation.`);
  const { file, repository } = openVisited(named, args, surroundings);
  const at = placeOfReadings(args, surroundings);
  const reference = relativePath(folderOf(at), file.document.path);
  const brought = bringBack(buildChecklist(file, { units: unitsOf(fields, args.file) }), fields, reference);
  account(brought, args.file, surroundings);
  if (!isHandover(args)) return written(brought.text, args, surroundings);
  const root = repository.rootOf(file.document.path);
  return handedOver(repository.update([{ path: at, text: brought.text, root }]), at, args, surroundings);
}

/** A form says in which units it was printed; one without the mark was printed as the file is written. */
function unitsOf(fields: FormFields, name: string): UnitChoice {
  const marked = fields.get(FORM_FIELDS.units)?.trim() ?? '';
  if (marked === '') return 'as-written';
  const units = UNIT_CHOICES.find((each) => each === marked);
  if (units === undefined) throw new Refusal(`'${name}' was printed in units that are not known here, '${marked}'.`);
  return units;
}

function openVisited(named: string, args: ReadingsArguments, surroundings: Surroundings) {
  try {
    return openInstallation(named, args, surroundings);
  } catch (error) {
    if (!(error instanceof Refusal) || args.installation !== undefined) throw error;
    throw new Refusal(
      `${error.message} The form was made for '${named}', seen from where it was made; name the installation with --installation.`,
    );
  }
}

/** Where the document is, or would be: a reference in it counts from there. */
function placeOfReadings({ file, output, format }: ReadingsArguments, { cwd }: Surroundings): string {
  const isDocument = format === undefined || format === 'yaml';
  const name = isDocument ? (output ?? 'readings.yaml') : `${file}.yaml`;
  return absolutePath(cwd, name);
}

/** What became of the fields: all are told of, so that nothing is lost or made up in silence. */
function account(brought: BroughtBack, name: string, surroundings: Surroundings): void {
  const { filled, empty, unknown, unreadable, unticked, absent } = brought;
  const tell = (message: string) => say(surroundings, message);
  tell(`'${name}': ${counted(filled, 'field')} filled, ${empty} empty.`);
  for (const { item, text, fault } of unreadable) tell(`'${item}' says '${text}', kept as it was typed. ${fault}`);
  if (unknown.length > 0)
    tell(
      `${counted(unknown.length, 'field')} of no item on the checklist, kept under the name of the field: ${listOf(unknown)}.`,
    );
  if (unticked.length > 0)
    tell(`${counted(unticked.length, 'setting')} written down and not ticked: ${listOf(unticked)}.`);
  if (absent.length > 0)
    tell(`The form lacks ${counted(absent.length, 'field')} of the checklist as it is now: ${listOf(absent)}.`);
}

const MOST_NAMED = 10;

function listOf(names: readonly string[]): string {
  const rest = names.length > MOST_NAMED ? ` and ${names.length - MOST_NAMED} more` : '';
  return `${names.slice(0, MOST_NAMED).join(', ')}${rest}`;
}

function written(text: string | Uint8Array, { output }: ReadingsArguments, surroundings: Surroundings): number {
  writeOutput(output, text, surroundings);
  return EXIT.done;
}

/** The report of a document that is there; of one within a page, as if it stood beside the page. */
function ofDocument(text: string, args: ReadingsArguments, surroundings: Surroundings): Promise<number> {
  const scope = scopeOf(args, surroundings);
  const path = absolutePath(surroundings.cwd, args.file);
  scope.admit(path);
  const { repository } = loadDocuments([path], scope.roots, scope.options);
  const root = repository.rootOf(path);
  return handedOver(withWanted(repository.update([{ path, text, root }]), scope), path, args, surroundings);
}

function withWanted(repository: Repository, scope: ReturnType<typeof scopeOf>): Repository {
  const wanted = repository.wanted();
  if (wanted.length === 0) return repository;
  const loaded = loadDocuments(wanted, scope.roots, scope.options).repository;
  return withWanted(repository.update(wanted.map((path) => changeOf(loaded, path))), scope);
}

function changeOf(loaded: Repository, path: string) {
  const document = loaded.document(path);
  return document === undefined
    ? ({ path, absent: true } as const)
    : { path, text: document.source.text, root: loaded.rootOf(path) };
}

async function handedOver(
  repository: Repository,
  path: string,
  args: ReadingsArguments,
  surroundings: Surroundings,
): Promise<number> {
  const file = repository.check(path);
  const planned = file === undefined ? undefined : plannedOf(repository, file);
  if (file === undefined || planned === undefined)
    throw new Refusal(`'${args.file}' names no installation that can be read; 'setproof check' says more.`);
  const report = buildHandover(file, planned, repository.options.today);
  return written(await reportText(report, args), args, surroundings);
}

async function reportText(report: Handover, { format, paper = 'a4' }: ReadingsArguments): Promise<string | Uint8Array> {
  switch (format) {
    case 'handover-pdf':
      return (await import('../render/handover/pdf.ts')).renderHandoverPdf(report, { paper });
    case 'handover-markdown':
      return (await import('../render/handover/markdown.ts')).renderHandoverMarkdown(report);
    default:
      return (await import('../render/handover/html.ts')).renderHandoverHtml(report, { paper });
  }
}

function plannedOf(repository: Repository, { document, statuses }: CheckedFile): CheckedFile | undefined {
  // A check of readings that did not run for want of the installation says that it was not reached.
  const isReached = statuses.get('readings.out-of-limit')?.status !== 'not_run';
  const known = repository.known(document.path);
  const reference = known?.state === 'read' ? known.references[0] : undefined;
  return isReached && reference !== undefined ? repository.check(reference.path) : undefined;
}

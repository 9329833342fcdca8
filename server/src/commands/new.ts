import { type DocumentKind, nearest, VERSIONS } from '../engine/index.ts';
import { absolutePath } from '../host/node/paths.ts';
import { reasonOf } from '../host/node/reasons.ts';
import { writeNew } from '../host/node/write.ts';
import { type Lift, starterDocument } from '../render/starter/starter.ts';
import { EXIT, Refusal, running, type Surroundings, say } from './surroundings.ts';

export interface NewArguments {
  /** One of the kinds of documents; with its version, as the first line of a document has it, too. */
  readonly kind: string;
  /** Standard output without it. */
  readonly file?: string | undefined;
  readonly lift?: Lift | undefined;
}

/** `setproof new`: a document to begin with; never in the place of one that is there. */
export function newDocument({ kind, file, lift }: NewArguments, surroundings: Surroundings): Promise<number> {
  return running(surroundings, async () => {
    const text = starterDocument(kindOf(kind), lift, file === undefined ? undefined : wellOf(file));
    if (file === undefined) surroundings.stdout.write(text);
    else write(file, text, surroundings);
    return EXIT.done;
  });
}

/** A file is named after its well: `a-07.yaml` is A-07. A name that YAML would take for something else is left to the author. */
function wellOf(file: string): string | undefined {
  const [, stem] = /([^/\\]+)\.ya?ml$/i.exec(file) ?? [];
  return stem !== undefined && /^[a-z][\w-]*$/i.test(stem) ? stem.toUpperCase() : undefined;
}

const KINDS = Object.keys(VERSIONS) as readonly DocumentKind[];

function kindOf(text: string): DocumentKind {
  const kind = KINDS.find((each) => text === each || text === `${each}/${VERSIONS[each]}`);
  if (kind !== undefined) return kind;
  const near = nearest(text, KINDS);
  const hint = near === undefined ? '' : ` Was '${near}' meant?`;
  throw new Refusal(`There is no kind of document '${text}'; the kinds are ${KINDS.join(', ')}.${hint}`);
}

function write(file: string, text: string, surroundings: Surroundings): void {
  const { cwd } = surroundings;
  try {
    writeNew(absolutePath(cwd, file), text);
    say(surroundings, `'${file}' is written. Fill it in, and ask 'setproof check ${file}' as you go.`);
  } catch (error) {
    throw new Refusal(`'${file}' was not written: ${reasonOf(error)}.`);
  }
}

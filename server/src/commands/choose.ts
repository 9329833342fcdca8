import type { FoundFile } from '../host/node/find.ts';
import { relativePath } from '../host/node/paths.ts';
import type { Roots } from '../host/node/root.ts';
import type { Survey } from './checking/inspector.ts';
import { Refusal } from './surroundings.ts';

export interface Chosen {
  /** The documents to check, in the order of their paths. */
  readonly documents: readonly Survey[];
  /** Files that were named and are no documents of ours. */
  readonly strangers: readonly string[];
  /** Files that a walk came upon and that are not ours. */
  readonly ignored: readonly string[];
}

/** Which of the files are documents of ours. Of one that was named more is expected than of one that a walk came upon. */
export function chooseDocuments(files: readonly FoundFile[], surveys: readonly Survey[]): Chosen {
  const named = new Set(files.flatMap((file) => (file.named ? [file.path] : [])));
  const isChosen = ({ path, standing }: Survey) => standing === 'ours' || (standing === 'broken' && named.has(path));
  const others = surveys.filter((each) => each.standing !== 'unread' && !isChosen(each)).map(({ path }) => path);
  return {
    documents: surveys.filter(isChosen),
    strangers: others.filter((path) => named.has(path)),
    ignored: others.filter((path) => !named.has(path)),
  };
}

/** One of several parts that a run is shared out in. */
export interface Shard {
  readonly number: number;
  readonly count: number;
}

const MOST_SHARDS = 10_000;

/** @throws Refusal for what is no part of a whole */
export function shardOf(text: string): Shard {
  const [, number, count] = (/^(\d{1,5})\/(\d{1,5})$/.exec(text) ?? []).map(Number);
  const isPart = number !== undefined && count !== undefined && number >= 1 && number <= count && count <= MOST_SHARDS;
  if (!isPart) {
    throw new Refusal(
      `A shard is written as i/n, such as 2/8, with i from 1 to n and n at most ${MOST_SHARDS}, not as '${text}'.`,
    );
  }
  return { number, count };
}

/**
 * Whether a file falls into a shard. That goes by its path from its root alone, so that it stays in its shard whatever
 * comes and goes beside it, and on whichever machine.
 */
export function isInShard(path: string, { number, count }: Shard, roots: Roots): boolean {
  return hashOf(relativePath(roots.of(path), path)) % count === number - 1;
}

/** FNV-1a with 32 bits: spreads names evenly, the same everywhere. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193) >>> 0;
  // Low bits of near names are alike without this.
  return (hash ^ (hash >>> 15)) >>> 0;
}

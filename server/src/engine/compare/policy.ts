import type { CheckedFile } from '../check-document.ts';
import type { Document } from '../format/document.ts';
import { formatMeasure } from '../quantity/format.ts';
import { kindNamed } from '../quantity/kinds.ts';
import { LIMITS } from '../values/limits.ts';
import { compareEntries, type EntryChange } from './entries.ts';
import { differenceOf, type Measured } from './measured.ts';

/** The policy that governs an installation, where another one does, or it says something else. */
export interface PolicyChange {
  /** Undefined where no policy governs. */
  readonly before: string | undefined;
  readonly after: string | undefined;
  readonly entries: readonly EntryChange[];
}

export function comparePolicies(before: CheckedFile, after: CheckedFile): PolicyChange | undefined {
  const [old, now] = [before.policy.document, after.policy.document];
  if (old?.source.text === now?.source.text) return undefined;
  const entries = old === undefined || now === undefined ? [] : comparePolicyEntries(old, now);
  const isSame = entries.length === 0 && old !== undefined && now !== undefined;
  return isSame ? undefined : { before: old?.path, after: now?.path, entries };
}

/** What two policies say differently; a limit that only one of them sets stands beside its default. */
export function comparePolicyEntries(before: Document, after: Document): readonly EntryChange[] {
  return compareEntries(before, after).map(withDefault);
}

function withDefault(change: EntryChange): EntryChange {
  const limit = LIMITS.find(({ name }) => change.label === `limits.${name}`);
  const kind = limit && kindNamed(limit.kind);
  const own = change.after ?? change.before;
  if (limit === undefined || kind === undefined || own?.number === undefined || bothThere(change)) return change;
  const unit = kind.usual[0] ?? '';
  const usual: Measured = {
    text: `${formatMeasure(limit.number, kind, unit)} (default)`,
    number: limit.number,
    unit: kind.internal,
  };
  const [from, to] = change.before === undefined ? [limit.number, own.number] : [own.number, limit.number];
  return {
    ...change,
    before: change.before ?? usual,
    after: change.after ?? usual,
    difference: from === to ? undefined : differenceOf(from, to, kind, unit),
  };
}

function bothThere({ before, after }: EntryChange): boolean {
  return before !== undefined && after !== undefined;
}

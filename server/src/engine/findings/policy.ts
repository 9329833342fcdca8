import type { Document } from '../format/document.ts';
import { NONE, type NodeIndex } from '../syntax/tree.ts';
import type { Severity } from './finding.ts';

export const POLICY_FILE = 'setproof.policy.yaml';

/** What a policy says, as data. */
export interface Policy {
  readonly document: Document | undefined;
  /** Limits by name, in SI. */
  readonly limits: ReadonlyMap<string, number>;
  readonly severities: ReadonlyMap<string, Severity>;
  /** Checks set aside, with the reason. */
  readonly setAside: ReadonlyMap<string, string>;
  /** Checks that must have run. */
  readonly required: readonly string[];
  /** Patterns of files that a walk leaves out, relative to the policy's folder. */
  readonly ignored: readonly string[];
}

export const NO_POLICY: Policy = {
  document: undefined,
  limits: new Map(),
  severities: new Map(),
  setAside: new Map(),
  required: [],
  ignored: [],
};

type Quantity = NonNullable<Document['quantities'][number]>;

/**
 * Reads a policy. `takes` says whether there is a limit of that name and dimension: one that there is not must not be in
 * force. Whoever wants other parts only need not tell.
 */
export function readPolicy(
  document: Document,
  takes: (limit: string, quantity: Quantity) => boolean = () => true,
): Policy {
  const { tree } = document;
  const checks = tree.find('checks');
  return {
    document,
    limits: readLimits(document, tree.find('limits'), takes),
    severities: readTexts(document, checks, 'severity') as ReadonlyMap<string, Severity>,
    setAside: readTexts(document, checks, 'set_aside'),
    required: readList(document, tree.find('require')),
    ignored: readList(document, tree.find('ignore')),
  };
}

function readLimits(
  document: Document,
  node: NodeIndex,
  takes: (limit: string, quantity: Quantity) => boolean,
): ReadonlyMap<string, number> {
  const { tree, quantities } = document;
  const limits = new Map<string, number>();
  for (const child of tree.children(node)) {
    const quantity = quantities[child];
    if (quantity !== undefined && takes(tree.key(child), quantity)) limits.set(tree.key(child), quantity.value);
  }
  return limits;
}

function readTexts(document: Document, node: NodeIndex, key: string): ReadonlyMap<string, string> {
  const { tree } = document;
  const texts = new Map<string, string>();
  for (const child of tree.children(node)) {
    const at = tree.child(child, key);
    const text = at === NONE || tree.isAbsent(at) ? '' : tree.scalar(at).trim();
    if (text !== '') texts.set(tree.key(child), text);
  }
  return texts;
}

function readList({ tree }: Document, node: NodeIndex): readonly string[] {
  return [...tree.children(node)].map((child) => tree.scalar(child)).filter((text) => text !== '');
}

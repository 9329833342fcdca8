import ignore, { type Ignore } from 'ignore';
import { isInside, POLICY_FILE, readDocument, readPolicy } from '../../engine/index.ts';
import { readTextFile } from './read.ts';

/** The patterns of one policy, which count from its own folder. */
interface Rule {
  readonly folder: string;
  readonly matcher: Ignore;
}

/** Files and folders that a walk leaves out because a policy says so. */
export class Ignored {
  readonly #rules: readonly Rule[];

  constructor(rules: readonly Rule[] = []) {
    this.#rules = rules;
  }

  /** With the patterns of a policy besides these, if there is one with any. */
  withPolicy(path: string): Ignored {
    const reading = readTextFile(path);
    return 'text' in reading ? this.withPolicyText(path, reading.text) : this;
  }

  /** The same of a policy whose text is known, such as one of an earlier revision. */
  withPolicyText(path: string, text: string): Ignored {
    const { ignored } = readPolicy(readDocument(path, text));
    if (ignored.length === 0) return this;
    const folder = path.slice(0, path.lastIndexOf('/'));
    return new Ignored([...this.#rules, { folder, matcher: ignore().add([...ignored]) }]);
  }

  withPolicyIn(folder: string): Ignored {
    return this.withPolicy(`${folder}/${POLICY_FILE}`);
  }

  /** Those that leave a folder in: it was named itself, so what leaves it out says nothing of what is in it. */
  leavingIn(folder: string): Ignored {
    return new Ignored(this.#rules.filter((rule) => !leavesOut(rule, folder, true)));
  }

  has(path: string, isFolder: boolean): boolean {
    return this.#rules.some((rule) => leavesOut(rule, path, isFolder));
  }
}

function leavesOut({ folder, matcher }: Rule, path: string, isFolder: boolean): boolean {
  if (path === folder || !isInside(path, folder)) return false;
  return matcher.ignores(path.slice(folder.length + 1) + (isFolder ? '/' : ''));
}

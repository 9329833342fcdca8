import { isMap, isScalar, isSeq, parseDocument } from 'yaml';
import type { Project } from '../engine/values/project.ts';

export interface Leaf {
  /** `file: dotted key`, as edits name it. */
  readonly place: string;
  readonly text: string;
}

/** Every scalar of every file, but the keys that say what the file is and where its sheets are. */
export function leavesOf(project: Project): readonly Leaf[] {
  const leaves: Leaf[] = [];
  for (const [file, text] of Object.entries(project)) {
    const walk = (node: unknown, key: string): void => {
      if (isMap(node)) for (const { key: name, value } of node.items) walk(value, key ? `${key}.${name}` : `${name}`);
      else if (isSeq(node))
        node.items.forEach((item, at) => {
          walk(item, `${key}.${at}`);
        });
      else if (isScalar(node) && !/document|datasheet/.test(key))
        leaves.push({ place: `${file}: ${key}`, text: `${node.value}` });
    };
    walk(parseDocument(text).contents, '');
  }
  return leaves;
}

const NUMBER = /^-?\d+(\.\d+)?/;

/** The same quantity with its number changed; undefined for a text. */
export function withNumber({ text }: Leaf, by: (number: number) => number): string | undefined {
  return NUMBER.test(text) ? text.replace(NUMBER, (digits) => `${by(Number(digits))}`) : undefined;
}

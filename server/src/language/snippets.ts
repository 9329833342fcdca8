import type { Shape } from '../engine/index.ts';

/** Keys that do little without each other, where a group has no key that must be there. */
const TOGETHER = ['trip', 'delay'];

/**
 * What goes behind a key, with places to fill in as an editor's snippet: the choices of a choice, and the keys of a group
 * that are worth writing at once.
 */
export function snippetBehind(shape: Shape, inFlow: boolean, indent: string): string {
  switch (shape.type) {
    case 'choice':
      return `: ${choicePlace(Object.keys(shape.choices ?? {}))}`;
    case 'boolean':
      return `: ${choicePlace(['yes', 'no'])}`;
    case 'map':
      return groupPlace(keysAtOnce(shape), inFlow, indent);
    case 'list':
      return inFlow ? ': [ $0 ]' : `:\n${indent}- $0`;
    default:
      return ': $0';
  }
}

/** Text as a snippet that stands for nothing but itself. */
export function verbatim(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}

function choicePlace(choices: readonly string[]): string {
  return choices.length === 0 ? '$0' : `\${1|${choices.map((each) => each.replace(/[,|\\$}]/g, '\\$&')).join(',')}|}$0`;
}

function keysAtOnce({ keys = {}, required = [] }: Shape): readonly string[] {
  const single = (key: string) => !['map', 'list'].includes(keys[key]?.type ?? 'any');
  const together = TOGETHER.every((key) => Object.hasOwn(keys, key)) ? TOGETHER : [];
  return [...(required.length > 0 ? required : together)].filter(single);
}

function groupPlace(keys: readonly string[], inFlow: boolean, indent: string): string {
  const places = keys.map((key, at) => `${key}: $${at + 1}`);
  if (inFlow) return `: { ${places.length === 0 ? '$0' : places.join(', ')} }`;
  return `:\n${indent}${places.length === 0 ? '$0' : places.join(`\n${indent}`)}`;
}

import type { Window } from './declare.ts';

/** A trip with the side that it is measured at: all bounds are brought to that side. */
export function namedWithSide(title: string, protection: string, usual: string): NonNullable<Window['named']> {
  return (shown, text) => {
    const side = text(`setpoints.protection.${protection}.side`);
    const words = side === '' || side === usual ? '' : ` (all here at the ${side} side)`;
    return `The ${title} trip of ${shown}${words}`;
  };
}

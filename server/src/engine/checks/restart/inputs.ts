import type { Condition } from '../../values/declare.ts';

export const RESTART = 'setpoints.restart';
/** Where a person starts the unit, nothing of this concerns it. */
export const AUTOMATIC: Condition = { path: `${RESTART}.mode`, is: ['automatic'] };

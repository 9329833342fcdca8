import type { Mistake } from './mistake.ts';

const P = 'setpoints.protection';
const START = 'setpoints.start';
const RESTART = 'setpoints.restart';
const after = (fault: string) => `[underload, intake_pressure_low, ${fault}]`;

/** Restarts that are unsafe, delays that are blank or useless, overrides too short. */
export const RESTARTS: readonly Mistake[] = [
  {
    id: 'restart-after-short-circuit',
    did: 'let the unit restart by itself after a short circuit',
    well: 'qm-a1',
    edits: { [`${RESTART}.after`]: after('short_circuit') },
  },
  {
    id: 'restart-after-earth-fault',
    did: 'let the unit restart by itself after an earth fault',
    well: 'qm-b2',
    edits: { [`${RESTART}.after`]: after('earth_fault') },
  },
  {
    id: 'restart-after-overload',
    did: 'let the unit restart by itself after an overload',
    well: 'qm-a3',
    edits: { [`${RESTART}.after`]: after('overload') },
  },
  {
    id: 'restart-after-stall',
    did: 'let the unit restart by itself after a stall',
    well: 'qm-a2',
    edits: { [`${RESTART}.after`]: after('stall') },
  },
  {
    id: 'restart-after-hot-motor',
    did: 'let the unit restart by itself after a hot motor',
    well: 'qm-b1',
    edits: { [`${RESTART}.after`]: after('motor_temperature_high') },
  },
  {
    id: 'restart-after-closed-valve',
    did: 'let the unit restart by itself after a high wellhead pressure',
    well: 'qm-b3',
    edits: { [`${RESTART}.after`]: after('wellhead_pressure_high') },
  },
  {
    id: 'restart-into-a-backspin',
    did: 'restarts within ten minutes without a check valve: the rotor still turns backwards',
    well: 'qm-b1',
    edits: { [`${RESTART}.delay`]: '10 min' },
  },
  {
    id: 'restart-at-once',
    did: 'slipped from hours into seconds',
    well: 'qm-a1',
    edits: { [`${RESTART}.delay`]: '2 s' },
  },
  {
    id: 'restart-before-refill',
    did: 'restarts before the annulus has filled up again',
    well: 'qm-a2',
    edits: { [`${RESTART}.delay`]: '20 min' },
  },
  {
    id: 'restart-delay-blank',
    did: 'left the delay blank',
    well: 'qm-a3',
    edits: { [`${RESTART}.delay`]: '' },
    also: [RESTART],
  },
  {
    id: 'restart-delay-zero',
    did: 'left the delay at zero',
    well: 'qm-b2',
    edits: { [`${RESTART}.delay`]: '0 min' },
  },
  {
    id: 'restart-without-count',
    did: 'left the number of attempts out',
    well: 'qm-b1',
    edits: { [`${RESTART}.attempts`]: null },
    also: [RESTART],
  },
  {
    id: 'restart-without-window',
    did: 'left the window out',
    well: 'qm-b3',
    edits: { [`${RESTART}.window`]: null },
    also: [RESTART],
  },
  {
    id: 'restart-many',
    did: 'typed a zero too many into the attempts',
    well: 'qm-a1',
    edits: { [`${RESTART}.attempts`]: '30' },
    also: [`${RESTART}.window`],
  },
  {
    id: 'restart-window-too-short',
    did: 'set a window shorter than the attempts take: the count never locks out',
    well: 'qm-a3',
    edits: { [`${RESTART}.window`]: '2 h' },
    also: [RESTART],
  },
  {
    id: 'restart-delay-and-window-swapped',
    did: 'swapped delay and window',
    well: 'qm-b3',
    edits: { [`${RESTART}.delay`]: '24 h', [`${RESTART}.window`]: '3 h' },
  },
  {
    id: 'restart-mode-misspelt',
    did: 'wrote auto for automatic',
    well: 'qm-b2',
    edits: { [`${RESTART}.mode`]: 'auto' },
  },
  {
    id: 'override-shorter-than-fill',
    did: 'took the override of a faster pump: the tubing is not yet full when it ends',
    well: 'qm-a2',
    edits: { [`${START}.override`]: '1 h' },
  },
  {
    id: 'override-in-seconds',
    did: 'wrote s for h',
    well: 'qm-b2',
    edits: { [`${START}.override`]: '3 s' },
  },
  {
    id: 'override-of-days',
    did: 'wrote d for h: the pump may run dry for days',
    well: 'qm-b1',
    edits: { [`${START}.override`]: '150 d' },
  },
  {
    id: 'intake-delay-zero',
    did: 'left the delay of the intake pressure at zero',
    well: 'qm-a1',
    edits: { [`${P}.intake_pressure_low.delay`]: '0 s' },
  },
  {
    id: 'intake-delay-blank',
    did: 'left the delay of the intake pressure blank',
    well: 'qm-b2',
    edits: { [`${P}.intake_pressure_low.delay`]: '' },
    also: [`${P}.intake_pressure_low`],
  },
  {
    id: 'intake-delay-useless',
    did: 'wrote the delay in minutes',
    well: 'qm-a3',
    edits: { [`${P}.intake_pressure_low.delay`]: '45 min' },
  },
];

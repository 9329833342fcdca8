import { CURRENTS } from './currents.ts';
import { DRAFTING } from './drafting.ts';
import { FIELD_SLIPS } from './field-slips.ts';
import type { Mistake } from './mistake.ts';
import { NAMEPLATES } from './nameplates.ts';
import { NEW_WELLS } from './new-wells.ts';
import { PAPERWORK } from './paperwork.ts';
import { PRESSURES } from './pressures.ts';
import { RESTARTS } from './restarts.ts';
import { SUPPLY } from './supply.ts';
import { UNITS } from './units.ts';
import { VOLTAGES } from './voltages.ts';
import { WELL_DATA } from './wells.ts';

/** Mistakes as they are made in the office and on site, by kind. */
export const KINDS: Readonly<Record<string, readonly Mistake[]>> = {
  units: UNITS,
  'pressures and their references': PRESSURES,
  'well, reservoir and fluid': WELL_DATA,
  'nameplates and data sheets': NAMEPLATES,
  'taps, drive, supply and motion': SUPPLY,
  'current trips': CURRENTS,
  'voltage, earth-fault, temperature and vibration trips': VOLTAGES,
  'restarts, overrides and delays': RESTARTS,
  'copies and paperwork': PAPERWORK,
  'slips of the day of commissioning': FIELD_SLIPS,
  'on the line, tapered, gassy, linear in oilfield units': NEW_WELLS,
  'drafting from sheets, well files and the last well': DRAFTING,
};

export const MISTAKES: readonly Mistake[] = Object.values(KINDS).flat();

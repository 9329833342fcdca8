import type { Check } from '../declare.ts';
import { REVISION_DATE_IN_FUTURE } from './date-in-future.ts';
import { REVISION_UNREVIEWED } from './unreviewed.ts';

/** Checks of the revision block. */
export const REVISION_CHECKS: readonly Check[] = [REVISION_UNREVIEWED, REVISION_DATE_IN_FUTURE];

import type { Check } from '../declare.ts';
import { SITE_AMBIENT_ORDER } from './ambient-order.ts';

/** Checks of the site. */
export const SITE_CHECKS: readonly Check[] = [SITE_AMBIENT_ORDER];

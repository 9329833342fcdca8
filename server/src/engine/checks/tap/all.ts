import type { Check } from '../declare.ts';
import { NOT_LOWEST } from './not-lowest.ts';
import { NOT_ON_TRANSFORMER } from './not-on-transformer.ts';
import { VOLTAGE_DISAGREES } from './voltage-disagrees.ts';

/** The tap of the transformer, apart from the bounds of its window and of the maximum frequency’s. */
export const TAP_CHECKS: readonly Check[] = [NOT_LOWEST, NOT_ON_TRANSFORMER, VOLTAGE_DISAGREES];

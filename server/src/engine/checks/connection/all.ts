import type { Check } from '../declare.ts';
import { CONNECTION_TORQUE_ORDER } from './torque-order.ts';

/** Checks of the joints that are made on site. */
export const CONNECTION_CHECKS: readonly Check[] = [CONNECTION_TORQUE_ORDER];

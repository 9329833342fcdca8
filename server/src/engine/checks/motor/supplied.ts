import type { Check } from '../declare.ts';
import { TERMINAL_VOLTAGE } from './terminal-voltage.ts';
import { VOLTAGE_UNCERTAIN } from './voltage-uncertain.ts';
import { WRONG_TYPE } from './wrong-type.ts';

/** The motor and the voltage that it gets. */
export const MOTOR_SUPPLY_CHECKS: readonly Check[] = [TERMINAL_VOLTAGE, VOLTAGE_UNCERTAIN, WRONG_TYPE];

import type { Check } from '../declare.ts';
import { MOTOR_COOLING_VELOCITY } from './cooling-velocity.ts';
import { MOTOR_DEMAGNETISING } from './demagnetising.ts';
import { MOTOR_FREQUENCY } from './frequency.ts';
import { MOTOR_LIGHT_LOAD, MOTOR_NEAR_RATING, MOTOR_OVERLOAD } from './load.ts';
import { MOTOR_RESISTIVE_DROP_UNCOMPENSATED } from './resistive-drop-uncompensated.ts';
import { MOTOR_SPEED_AND_FREQUENCY_DISAGREE } from './speed-and-frequency.ts';
import {
  MOTOR_FLUID_TEMPERATURE,
  MOTOR_MAGNET_TEMPERATURE,
  MOTOR_TEMPERATURE_MARGIN,
  MOTOR_WINDING_TEMPERATURE,
} from './temperature.ts';

/** Checks of the motor in its well; those of its voltage stand with the tap. */
export const MOTOR_CHECKS: readonly Check[] = [
  MOTOR_SPEED_AND_FREQUENCY_DISAGREE,
  MOTOR_RESISTIVE_DROP_UNCOMPENSATED,
  MOTOR_OVERLOAD,
  MOTOR_NEAR_RATING,
  MOTOR_LIGHT_LOAD,
  MOTOR_FREQUENCY,
  MOTOR_WINDING_TEMPERATURE,
  MOTOR_TEMPERATURE_MARGIN,
  MOTOR_MAGNET_TEMPERATURE,
  MOTOR_FLUID_TEMPERATURE,
  MOTOR_COOLING_VELOCITY,
  MOTOR_DEMAGNETISING,
];

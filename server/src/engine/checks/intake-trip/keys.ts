import { switchedOn } from '../../values/conditions.ts';

const PROTECTION = 'setpoints.protection.intake_pressure_low';
export const TRIP = `${PROTECTION}.trip`;
export const ALARM = `${PROTECTION}.alarm`;
export const RESET = `${PROTECTION}.reset`;
export const CHANNEL = 'equipment.gauge.measures.intake_pressure';

/** Conditions under which there is a low intake-pressure trip that acts. */
export const IN_USE = switchedOn('intake_pressure_low');

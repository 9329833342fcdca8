import { ROOT3 } from '../physics.ts';

/** What the series impedance of one phase takes, line to line: along the load's voltage, and across it. V. */
interface Drop {
  readonly along: number;
  readonly across: number;
}

/**
 * Line-to-line voltage at the sending end of a series impedance, V rms: |V + s3 I (cos f - j sin f)(R + jX)|.
 * Circuit law, exact. For a leading current give -x: the magnitude is the same.
 *
 * @param receiving line-to-line voltage at the load, V.
 * @param current line current, A.
 * @param powerFactor of the load, lagging.
 * @param resistance per phase, ohm.
 * @param reactance per phase, ohm.
 * @returns NaN for a power factor outside -1..1.
 */
export function sendingVoltage(
  receiving: number,
  current: number,
  powerFactor: number,
  resistance: number,
  reactance: number,
): number {
  const drop = dropOf(current, powerFactor, resistance, reactance);
  return Math.hypot(receiving + drop.along, drop.across);
}

/**
 * Line-to-line voltage at the load, V rms, for a sending voltage: the exact inverse of {@link sendingVoltage}.
 * Source: IEEE 141-1993 3.11 (from memory, derived again).
 *
 * @param sending line-to-line voltage at the source, V; the power factor is still the load's.
 * @returns NaN when the impedance takes more than there is, or the power factor is outside -1..1.
 */
export function receivingVoltage(
  sending: number,
  current: number,
  powerFactor: number,
  resistance: number,
  reactance: number,
): number {
  const drop = dropOf(current, powerFactor, resistance, reactance);
  const receiving = Math.sqrt(sending ** 2 - drop.across ** 2) - drop.along;
  return receiving >= 0 ? receiving : Number.NaN;
}

/**
 * The usual approximation of the line-to-line drop, V: s3 I (R cos f + X sin f), parameters as {@link sendingVoltage}.
 * Source: IEEE 141-1993 3.11 (from memory; the same in US DoD UFC 3-520-01). Never above the exact drop.
 */
export function approximateDrop(current: number, powerFactor: number, resistance: number, reactance: number): number {
  return dropOf(current, powerFactor, resistance, reactance).along;
}

function dropOf(current: number, powerFactor: number, resistance: number, reactance: number): Drop {
  const sine = Math.sqrt(1 - powerFactor ** 2);
  return {
    along: ROOT3 * current * (resistance * powerFactor + reactance * sine),
    across: ROOT3 * current * (reactance * powerFactor - resistance * sine),
  };
}

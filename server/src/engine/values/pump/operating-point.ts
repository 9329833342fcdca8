import { type InflowCurve, inflowRate } from '../inflow/curve.ts';
import { type System, systemHead } from '../lift/system.ts';
import { bracketedRoot } from '../numeric/roots.ts';
import type { StageCurve } from './rotary-curve.ts';
import { type Shaft, settledRatio } from './shaft-speed.ts';

/** The last point of a curve itself, scaled there and back, may fall a rounding error outside of it. */
const ROUNDING = 1e-12;

/** A rotary pump on its shaft in its well. */
export interface RotaryPump {
  readonly stage: StageCurve;
  readonly stages: number;
  readonly shaft: Shaft;
  readonly system: System;
}

/** Where pump and system meet: intake rate m3/s, speed over the curve's. NaN in both where they do not. */
export interface RotaryPoint {
  readonly rate: number;
  readonly ratio: number;
}

export function pumpPower({ stage, stages, system }: RotaryPump, rate: number, ratio: number): number {
  return stages * stage.powerAt(rate, ratio, system.density);
}

export function pumpHead({ stage, stages }: RotaryPump, rate: number, ratio: number): number {
  return stages * stage.headAt(rate, ratio);
}

/** Speed at which the shaft settles while the pump makes a given rate. */
export function ratioAtRate(pump: RotaryPump, rate: number): number {
  const lowest = (rate / pump.stage.maxRate(1)) * (1 + ROUNDING);
  return settledRatio(pump.shaft, (ratio) => pumpPower(pump, rate, ratio), lowest);
}

/** Where the pump's head meets the system's at a given intake pressure (Pa absolute). */
export function pointAtPressure(pump: RotaryPump, intakePressure: number): RotaryPoint {
  const ratio = settledRatio(pump.shaft, (at) => pumpPower(pump, rateAtPressure(pump, at, intakePressure), at));
  return { ratio, rate: rateAtPressure(pump, ratio, intakePressure) };
}

function rateAtPressure(pump: RotaryPump, ratio: number, intakePressure: number): number {
  const surplus = (rate: number) => pumpHead(pump, rate, ratio) - systemHead(pump.system, rate, intakePressure);
  const last = pump.stage.maxRate(ratio);
  return bracketedRoot(surplus, 0, last * (1 - ROUNDING));
}

/** What the well and the liquid do at the intake. */
export interface Feed {
  readonly curve: InflowCurve;
  /** Pressure of the liquid between perforations and intake, Pa. */
  readonly columnBelow: number;
  /** Volume at the intake over that at the surface, at an intake pressure. */
  readonly volumeAt: (pressure: number) => number;
}

/** Rate at intake conditions that the well gives at an intake pressure (Pa absolute), m3/s. */
export function feedAt(feed: Feed, pressure: number): number {
  return inflowRate(feed.curve, pressure + feed.columnBelow) * feed.volumeAt(pressure);
}

/**
 * Intake pressure at which the well gives what the pump takes, Pa absolute.
 * @returns NaN where there is none: the pump cannot lift from this well, or draws more than it gives
 */
export function flowingIntakePressure(pump: RotaryPump, feed: Feed): number {
  const surplus = (pressure: number) => {
    const rate = feedAt(feed, pressure);
    const made = pumpHead(pump, rate, ratioAtRate(pump, rate));
    const asked = systemHead(pump.system, rate, pressure);
    // Beyond the end of its curve the pump is taken to lift nothing: what the well gives there is more than it takes.
    return (Number.isFinite(made) ? made : 0) - asked;
  };
  const atRest = feed.curve.reservoirPressure - feed.columnBelow;
  const pressure = bracketedRoot(surplus, Math.max(1, -feed.columnBelow), atRest);
  // Where the curve ends the surplus jumps; a root there is no meeting of two curves.
  return Number.isFinite(ratioAtRate(pump, feedAt(feed, pressure))) ? pressure : Number.NaN;
}

/** Intake pressure at which the well gives just the rate (m3/s at the intake) that a plunger pump displaces. */
export function pressureForRate(feed: Feed, rate: number): number {
  const lowest = Math.max(1, -feed.columnBelow);
  return bracketedRoot((at) => feedAt(feed, at) - rate, lowest, feed.curve.reservoirPressure - feed.columnBelow);
}

import type { CheckTexts } from '../findings/texts.ts';
import { FLOWING_CASE, NO_WORDS, present, STATED_CASE } from '../values/conditions.ts';
import { entry, limit, optionalEntry, optionalValue, value } from '../values/declare.ts';
import { GRAVITY, GRAVITY_SOURCE } from '../values/physics.ts';
import { bound, boundAt, recommend, type Window } from './declare.ts';
import { WINDOW_EMPTY } from './emptiness.ts';
import { FINER_THAN_GAUGE } from './intake-pressures.ts';

const TRIP = 'setpoints.protection.intake_pressure_low.trip';
const PRACTICE = 'common practice, no source';
const BAR = 1e5;

const texts = (text: CheckTexts): CheckTexts => text;

/** An example in which nothing but the trip is changed. */
const tripOf = (pressure: string, lift: 'linear' | 'rotary' = 'linear') => ({
  lift,
  fails: { [TRIP]: pressure },
  at: TRIP,
});

const beyondColumn = texts({
  id: 'intake-trip.beyond-column',
  severity: 'error',
  title: 'intake-pressure trip beyond a full column of liquid',
  compares: 'the trip with casing pressure and a column of liquid up to the wellhead',
  why: 'No liquid level in the well gives such a pressure. It is usually psi entered as bar.',
  mend: 'Check the unit of the trip, then the depth of the intake and the densities.',
  source: GRAVITY_SOURCE,
  example: tripOf('140 bar'),
});
const aboveStatic = texts({
  id: 'intake-trip.above-static',
  severity: 'error',
  title: 'intake-pressure trip above static pressure',
  compares: 'the trip with the pressure at the intake with the well at rest',
  why: 'The well never gets above the trip, even at rest: the unit can never start.',
  mend: 'Lower the trip below the flowing pressure, or check the reservoir pressure.',
  source: GRAVITY_SOURCE,
  example: tripOf('80 bar'),
});
const aboveFlowing = texts({
  id: 'intake-trip.above-flowing',
  severity: 'error',
  title: 'intake-pressure trip above flowing pressure',
  compares: 'the trip with the pressure at the intake in each running case',
  why: 'The unit stops before it reaches its target.',
  mend: 'Lower the trip, or the target.',
  source: 'inflow of the well: straight line, Vogel 1968',
  example: tripOf('30 bar'),
});
const nearFlowing = texts({
  id: 'intake-trip.near-flowing',
  severity: 'warning',
  title: 'intake-pressure trip close below flowing pressure',
  compares: 'the trip with the flowing pressure less a tenth, at least 1 bar',
  why: 'A little decline or gauge error stops a unit that runs well.',
  mend: 'Lower the trip, as far as the submergence allows.',
  source: PRACTICE,
  example: tripOf('22.5 bar'),
});
const belowCasing = texts({
  id: 'intake-trip.below-casing-pressure',
  severity: 'error',
  title: 'intake-pressure trip not above casing pressure',
  compares: 'the trip with the casing pressure at the wellhead',
  why: 'The liquid level is at or below the intake before the trip acts: the pump has run dry by then.',
  mend: 'Raise the trip by the submergence that is wanted, or lower the casing pressure.',
  source: GRAVITY_SOURCE,
  example: tripOf('3.5 bar'),
});
const shallow = texts({
  id: 'intake-trip.shallow-submergence',
  severity: 'warning',
  title: 'little liquid above the intake when the trip acts',
  compares: 'the height of oil above the intake at the trip with the least height',
  why: 'Waves, foam and gauge error bring gas to the intake before the trip acts.',
  mend: 'Raise the trip.',
  source: PRACTICE,
  example: tripOf('6 bar'),
});
const belowPumpMinimum = texts({
  id: 'intake-trip.below-pump-minimum',
  severity: 'error',
  title: 'intake-pressure trip below the pump’s minimum',
  compares: 'the trip with the least intake pressure on the pump’s data sheet',
  why: 'The pump is damaged before the trip acts.',
  mend: 'Raise the trip to the pump’s minimum.',
  source: 'the pump’s data sheet',
  example: { lift: 'linear', fails: { 'equipment.pump.min_intake_pressure': '18 bar' }, at: TRIP },
});
export const outsideGauge = texts({
  id: 'intake-trip.outside-gauge',
  severity: 'error',
  title: 'intake-pressure trip outside the range of its gauge',
  compares: 'the trip with the range of the gauge for intake pressure',
  why: 'A gauge does not report what is outside its range: the trip never acts, or always.',
  mend: 'Choose a trip within the range, or another gauge.',
  source: 'the gauge’s data sheet',
  example: {
    lift: 'linear',
    fails: { 'equipment.gauge.measures': '{ intake_pressure: { min: 0 bar, max: 15 bar, accuracy: 0.1 bar } }' },
    at: TRIP,
  },
});

const freeGas = texts({
  id: 'intake-trip.free-gas',
  severity: 'warning',
  title: 'too much free gas when the trip acts',
  compares: 'the free gas at the intake at the trip, on produced liquid and after separation, with the pump’s limit',
  why: 'Below its limit the pump fills with gas and stops pumping long before the trip acts, without tripping.',
  mend: 'Raise the trip to the pressure at which the pump still takes the gas, or fit a separator.',
  source: 'the pump’s data sheet; Standing 1947, Dranchuk and Abou-Kassem 1975',
  example: tripOf('14 bar'),
});
const beyondPump = texts({
  id: 'intake-trip.beyond-pump',
  severity: 'warning',
  title: 'the pump cannot draw the intake down to the trip',
  compares: 'the trip with the intake pressure at which the pump’s head or thrust is used up, in each running case',
  why: 'The pump stands still against the column, and heats, before the intake falls to the trip: the trip never acts.',
  mend: 'Raise the trip, and rely on the underload trip below it.',
  source: GRAVITY_SOURCE,
  example: tripOf('18.5 bar', 'rotary'),
});
const gaugeDepth = texts({
  id: 'intake-trip.gauge-depth',
  severity: 'warning',
  title: 'intake-pressure trip not corrected for a gauge below the intake',
  compares:
    'the trip, less the column from the intake down to a gauge that hangs more than 5 m below it, with the least ' +
    'comfortable pressure at the intake',
  why: 'The gauge reads that column more than the intake has, so the trip acts that much later than meant.',
  mend: 'Raise the trip by the pressure of the column between intake and gauge.',
  source: GRAVITY_SOURCE,
  example: { lift: 'linear', fails: { 'equipment.gauge.below_intake': '30 m' }, at: TRIP },
});

/** What bounds the pressure at the intake itself from below, whatever the gauge reads. */
const AT_INTAKE = {
  casing: optionalValue('bound:intake-trip.below-casing-pressure'),
  pump: optionalValue('bound:intake-trip.below-pump-minimum'),
  submergence: optionalValue('bound:intake-trip.shallow-submergence'),
  gas: optionalValue('bound:intake-trip.free-gas'),
  lift: optionalValue('bound:intake-trip.beyond-pump'),
};
const BOUNDS_NOTHING = 0;

const RANGE = 'equipment.gauge.measures.intake_pressure';
const MEASURED = present(RANGE);

/** Steps to which a recommended pressure is rounded up, so that it can be read and entered: a tenth, half, one bar. */
function readable(pressure: number, atmosphere: number): number {
  const gauge = pressure - atmosphere;
  const step = gauge < 10 * BAR ? 0.5 * BAR : BAR;
  return Math.ceil(gauge / step - 1e-9) * step + atmosphere;
}

export const INTAKE_PRESSURE_TRIP: Window = {
  setpoint: TRIP,
  title: 'the intake-pressure trip',
  kind: 'pressure',
  compared: entry(TRIP),
  when: [{ path: 'setpoints.protection.intake_pressure_low.enabled', isNot: NO_WORDS }],
  emptiness: WINDOW_EMPTY,
  bounds: [
    boundAt('intake.full_column_pressure', {
      check: beyondColumn,
      side: 'upper',
      hard: true,
      kind: 'pressure',
      limitName: 'the most that a full column of liquid puts on the intake',
      consequence: 'no liquid level gives such a pressure',
    }),
    boundAt('intake.static_pressure', {
      check: aboveStatic,
      side: 'upper',
      hard: true,
      kind: 'pressure',
      limitName: 'the pressure at the intake with the well at rest',
      consequence: 'the unit could never start',
    }),
    bound({
      check: aboveFlowing,
      id: 'intake-trip.above-flowing',
      side: 'upper',
      hard: true,
      kind: 'pressure',
      when: [FLOWING_CASE],
      limitName: 'the pressure at the intake while running',
      consequence: 'the unit would stop before it gets there',
      formula: 'intake pressure of the running case',
      inputs: { running: value('intake.running_pressure'), target: optionalValue('intake.flowing_pressure') },
      compute: ({ running, target }) => Math.min(running, target ?? running),
    }),
    bound({
      check: aboveFlowing,
      id: 'intake-trip.above-stated',
      side: 'upper',
      hard: true,
      kind: 'pressure',
      when: [STATED_CASE],
      limitName: 'the pressure at the intake that the case states',
      consequence: 'the unit would stop before it gets there',
      formula: 'intake pressure stated in the case',
      inputs: { running: value('intake.running_pressure') },
      compute: ({ running }) => running,
    }),
    bound({
      check: nearFlowing,
      side: 'upper',
      hard: false,
      kind: 'pressure',
      when: [FLOWING_CASE],
      limitName: 'the pressure a tenth, and at least 1 bar, below the flowing one',
      consequence: 'a small decline or gauge error would stop the unit',
      formula: 'p_flowing − max(10 % of it above the surrounding air, 1 bar)',
      inputs: {
        running: value('intake.running_pressure'),
        target: optionalValue('intake.flowing_pressure'),
        share: limit('intake-trip.near-flowing'),
        atmosphere: value('site.atmosphere'),
      },
      compute: ({ running, target, share, atmosphere }) => {
        const flowing = Math.min(running, target ?? running);
        return flowing - Math.max(share * (flowing - atmosphere), BAR);
      },
    }),
    bound({
      check: outsideGauge,
      id: 'intake-trip.outside-gauge.top',
      side: 'upper',
      hard: true,
      kind: 'pressure',
      when: [MEASURED],
      limitName: 'the top of the gauge’s range',
      consequence: 'the gauge cannot report it',
      formula: 'range of the gauge, top',
      inputs: { top: entry(`${RANGE}.max`) },
      compute: ({ top }) => top,
    }),
    bound({
      check: outsideGauge,
      id: 'intake-trip.outside-gauge.bottom',
      side: 'lower',
      hard: true,
      kind: 'pressure',
      when: [MEASURED],
      limitName: 'the bottom of the gauge’s range',
      consequence: 'the gauge cannot report it',
      formula: 'range of the gauge, bottom; zero gauge pressure if the sheet states none',
      inputs: { bottom: optionalEntry(`${RANGE}.min`), atmosphere: value('site.atmosphere') },
      compute: ({ bottom, atmosphere }) => bottom ?? atmosphere,
    }),
    bound({
      check: belowCasing,
      side: 'lower',
      hard: true,
      excludesItself: true,
      kind: 'pressure',
      limitName: 'the casing pressure at the wellhead',
      consequence: 'the liquid level is at the intake, or below it, before it acts',
      formula: 'p_casing',
      inputs: { casing: entry('well.wellhead.casing_pressure') },
      compute: ({ casing }) => casing,
    }),
    bound({
      check: belowPumpMinimum,
      side: 'lower',
      hard: true,
      kind: 'pressure',
      when: [present('equipment.pump.min_intake_pressure')],
      limitName: 'the least intake pressure of the pump',
      consequence: 'the pump is damaged before it acts',
      formula: 'least intake pressure on the data sheet',
      inputs: { least: entry('equipment.pump.min_intake_pressure') },
      compute: ({ least }) => least,
    }),
    bound({
      check: shallow,
      side: 'lower',
      hard: false,
      kind: 'pressure',
      limitName: 'the pressure of the least submergence',
      consequence: 'little liquid would be left above the intake',
      formula: 'p_casing + ρ_o·g·least submergence',
      inputs: {
        casing: entry('well.wellhead.casing_pressure'),
        oil: value('fluid.oil_density'),
        least: limit('intake-trip.shallow-submergence'),
      },
      compute: ({ casing, oil, least }) => casing + oil * GRAVITY * least,
    }),
    bound({
      check: FINER_THAN_GAUGE,
      id: 'intake-trip.finer-than-gauge.zero',
      side: 'lower',
      hard: false,
      kind: 'pressure',
      when: [present(`${RANGE}.accuracy`)],
      limitName: 'twice the accuracy of the gauge',
      consequence: 'the gauge could not tell it from zero',
      formula: 'p_atmosphere + 2·accuracy',
      inputs: { zero: value('site.atmosphere'), accuracy: entry(`${RANGE}.accuracy`) },
      compute: ({ zero, accuracy }) => zero + 2 * accuracy,
    }),
    boundAt('intake.free_gas_limit_pressure', {
      check: freeGas,
      side: 'lower',
      hard: false,
      kind: 'pressure',
      when: [present('equipment.pump.free_gas_max')],
      limitName: 'the pressure at which the pump still takes the free gas',
      consequence: 'the pump would fill with gas before it acts',
    }),
    boundAt('intake.lowest_lifted_pressure', {
      check: beyondPump,
      side: 'lower',
      hard: false,
      kind: 'pressure',
      when: [FLOWING_CASE],
      limitName: 'the pressure down to which the pump can draw the intake',
      consequence: 'the pump would stand against the column, and it would never act',
    }),
    bound({
      check: gaugeDepth,
      side: 'lower',
      hard: false,
      kind: 'pressure',
      when: [present('equipment.gauge.below_intake')],
      limitName: 'the least comfortable pressure at the intake with the column down to the gauge',
      consequence: 'the gauge reads that column more than the intake has, and it would act late',
      formula: 'the greatest bound at the intake + ρ·g·depth of the gauge below it, if that is more than the limit',
      inputs: {
        ...AT_INTAKE,
        below: entry('equipment.gauge.below_intake'),
        density: value('fluid.produced_density'),
        harmless: limit('intake-trip.gauge-depth'),
      },
      compute: ({ below, density, harmless, ...atIntake }) => {
        const least = Math.max(BOUNDS_NOTHING, ...Object.values(atIntake).map((each) => each ?? BOUNDS_NOTHING));
        return below > harmless ? least + density * GRAVITY * below : BOUNDS_NOTHING;
      },
    }),
  ],
  recommendation: recommend({
    rule: 'the least comfortable pressure, rounded up to a readable step',
    inputs: { atmosphere: value('site.atmosphere') },
    choose: ({ atmosphere }, { hardLower, lower, upper }) => {
      const least = Math.max(hardLower, lower);
      return Number.isFinite(least) ? Math.min(readable(least, atmosphere), Math.max(upper, least)) : Number.NaN;
    },
  }),
};

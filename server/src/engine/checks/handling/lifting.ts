import { present } from '../../values/conditions.ts';
import { entry, type Input, isPresent, limit, optionalEntry, optionalRows, rows } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement } from '../declare.ts';
import { reaches } from '../reaches.ts';

const RATED_LOAD = 'equipment.handling.sling.rated_load';
const ELEVATORS = 'equipment.handling.elevators';
const CABLE = 'equipment.cable.main';
/** What is lifted in one piece; the cable on its reel. */
const SINGLE = ['pump', 'motor', 'gauge', 'cable.motor_lead', 'transformer', 'drive'];

interface Lift {
  readonly name: string;
  readonly key: string;
  readonly mass: number | undefined;
}

const MASSES: Readonly<Record<string, Input<number | undefined>>> = Object.fromEntries(
  SINGLE.map((name) => [name, optionalEntry(`equipment.${name}.mass`)]),
);
const ENTERED: Readonly<Record<string, Input<boolean>>> = Object.fromEntries(
  SINGLE.map((name) => [`is ${name}`, isPresent(`equipment.${name}`)]),
);

export const HANDLING_SLING: Check = check({
  id: 'handling.sling',
  severity: 'error',
  title: 'sling too weak for the heaviest lift',
  compares:
    'the rated load of the sling with the heaviest mass among pump, motor, gauge, cable reels, transformer and drive',
  why: 'A sling that breaks drops the load on those who stand near it. Jerks and angles load it more than the mass does.',
  mend: 'Take a sling for at least 1.25 times the heaviest lift.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [RATED_LOAD]: '1000 kg' }, at: RATED_LOAD },
  needs: {
    ...MASSES,
    ...ENTERED,
    rated: entry(RATED_LOAD),
    sections: optionalRows(CABLE, { mass: 'number?' }),
    factor: limit('handling.sling'),
  },
  run: ({ rated, sections = [], factor, ...seen }, context) => {
    const lifts = liftsOf(seen as Record<string, unknown>, sections as readonly { readonly mass?: number }[]);
    const heaviest = lifts.reduce((most, each) => ((each.mass ?? 0) > (most?.mass ?? 0) ? each : most), lifts[0]);
    const mass = heaviest?.mass ?? 0;
    if (heaviest !== undefined && !reaches(rated, factor * mass)) return tooWeak(heaviest, rated, factor, context);
    const lacks = lifts.filter((each) => each.mass === undefined).map(({ key }) => `${key}.mass`);
    if (lacks.length > 0 || lifts.length === 0) return { lacks: lacks.length > 0 ? lacks : ['equipment'] };
    return { margin: { number: rated - factor * mass, kind: 'mass' } };
  },
});

function liftsOf(seen: Record<string, unknown>, sections: readonly { readonly mass?: number }[]): readonly Lift[] {
  const single = SINGLE.filter((name) => seen[`is ${name}`] === true).map((name) => ({
    name: name === 'cable.motor_lead' ? 'motor lead' : name,
    key: `equipment.${name}`,
    mass: seen[name] as number | undefined,
  }));
  const reels = sections.map(({ mass }) => ({ name: 'cable on its reel', key: CABLE, mass }));
  return [...single, ...reels];
}

function tooWeak({ name, key, mass = 0 }: Lift, rated: number, factor: number, context: CheckContext): Judgement {
  const show = (number: number) => context.show(number, 'mass', RATED_LOAD);
  const breaks = !reaches(rated, mass);
  const least = breaks ? mass : factor * mass;
  const fact = breaks
    ? `less than the heaviest lift, the ${name} with ${show(mass)}`
    : `hardly more than the ${name}, ${show(mass)}`;
  return {
    key: RATED_LOAD,
    severity: breaks ? 'error' : 'warning',
    message: `The sling is rated ${show(rated)}, ${fact}. Take one for at least ${show(factor * mass)}.`,
    value: { number: rated, kind: 'mass' },
    limit: { number: least, kind: 'mass' },
    related: [{ key: `${key}.mass`, message: `the mass of the ${name}` }],
  };
}

const DIAMETERS = {
  pump: optionalEntry('equipment.pump.outer_diameter'),
  motor: optionalEntry('equipment.motor.outer_diameter'),
  gauge: optionalEntry('equipment.gauge.outer_diameter'),
  tubing: optionalEntry('well.tubing.outer_diameter'),
};
type Item = keyof typeof DIAMETERS;

function diameterKey(item: string): string {
  return item === 'tubing' ? 'well.tubing.outer_diameter' : `equipment.${item}.outer_diameter`;
}

export const HANDLING_ELEVATOR: Check = check({
  id: 'handling.elevator',
  severity: 'error',
  title: 'elevator does not fit what it lifts',
  compares: 'the bore of each elevator with the outer diameter of its item',
  why: 'A bore too wide lets the item slip through, one too narrow does not close. Either drops it into the well.',
  mend: 'Take an elevator whose bore fits the diameter.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [`${ELEVATORS}[0].bore`]: '115 mm' }, at: `${ELEVATORS}[0].bore` },
  when: [present(ELEVATORS)],
  needs: {
    ...DIAMETERS,
    elevators: rows(ELEVATORS, { item: 'text', bore: 'number?' }),
    most: limit('handling.elevator'),
  },
  run: ({ elevators, most, ...diameters }, context) => {
    const misfits = elevators.flatMap(({ item, bore }, index) => {
      const diameter = diameters[item as Item];
      if (bore === undefined || diameter === undefined || reaches(most, Math.abs(bore - diameter))) return [];
      return [misfit(`${ELEVATORS}[${index}].bore`, item, bore, diameter, most, context)];
    });
    if (misfits.length > 0) return misfits;
    const lacks = elevators.flatMap(({ item, bore }, index) => {
      if (bore === undefined) return [`${ELEVATORS}[${index}].bore`];
      return diameters[item as Item] === undefined ? [diameterKey(item)] : [];
    });
    return lacks.length > 0 ? { lacks } : undefined;
  },
});

function misfit(
  key: string,
  item: string,
  bore: number,
  diameter: number,
  most: number,
  context: CheckContext,
): Judgement {
  const show = (length: number) => context.show(length, 'small_length', key);
  const way = bore > diameter ? 'wider' : 'narrower';
  return {
    key,
    message: `The elevator for the ${item} has a bore of ${show(bore)}, ${show(Math.abs(bore - diameter))} ${way} than its ${show(diameter)}; ${show(most)} is allowed. Take one that fits.`,
    value: { number: bore, kind: 'small_length' },
    limit: { number: bore > diameter ? diameter + most : diameter - most, kind: 'small_length' },
    related: [{ key: diameterKey(item), message: `the diameter of the ${item}` }],
  };
}

export const HANDLING_CHECKS: readonly Check[] = [HANDLING_SLING, HANDLING_ELEVATOR];

import { warn } from './cautions.ts';
import type { Facts } from './facts.ts';
import { itemsOf } from './items.ts';
import { rounded } from './notation.ts';
import { act, read, type Step } from './step.ts';

const ITEM_KEYS = { pump: 'equipment.pump', motor: 'equipment.motor', gauge: 'equipment.gauge', tubing: 'well.tubing' };

/** Sling, shackles and elevators against what they lift. */
export function lifting(facts: Facts): readonly Step[] {
  const id = (name: string) => `before_leaving.lifting.${name}`;
  return [
    warn('before_leaving', 'sling'),
    act(id('heaviest'), heaviestText(facts)),
    sling(facts),
    act(id('condition'), 'See that slings, shackles and hooks are tagged, in date and without damage.'),
    ...elevators(facts),
  ];
}

/** The heaviest single lift, kg; the computed one, else the heaviest mass on a data sheet. */
function heaviest(facts: Facts): { readonly mass: number; readonly title: string } | undefined {
  const masses = itemsOf(facts).flatMap(({ key, title }) => {
    const mass = facts.number(`${key}.mass`);
    return mass === undefined ? [] : [{ mass, title: `the ${title}` }];
  });
  const computed = facts.value('handling.lift_mass')?.number;
  const known =
    computed === undefined
      ? masses
      : [...masses.filter(({ mass }) => mass === computed), { mass: computed, title: 'the heaviest single lift' }];
  return known.sort((a, b) => b.mass - a.mass)[0];
}

function heaviestText(facts: Facts): string {
  const most = heaviest(facts);
  if (most === undefined) return "Find the heaviest lift in the makers’ manuals: no data sheet gives a 'mass'.";
  const unknown = itemsOf(facts).filter(({ key }) => !facts.has(`${key}.mass`));
  const rest =
    unknown.length === 0
      ? ''
      : ` The mass of ${unknown.map(({ title }) => title).join(', ')} is not in the data sheets.`;
  return `Plan the lifts: the heaviest is ${most.title}, ${facts.showNumber(most.mass, 'mass')}.${rest}`;
}

function sling(facts: Facts): Step {
  const most = heaviest(facts);
  const entry = 'equipment.handling.sling.rated_load';
  const planned = facts.measure(entry);
  const text = 'Read the rated load on the tag of the sling for the heaviest lift, at the angle at which it is used.';
  const missing = planned === undefined ? ` The planned sling is not known: enter '${entry}'.` : '';
  const id = 'before_leaving.lifting.sling';
  if (most === undefined) {
    const note = `The limit is not known: enter 'mass' in the data sheets.${missing}`;
    return read(id, text, { unit: planned?.unit, planned: planned?.number, note });
  }
  const factor = facts.evaluation.limit('handling.sling');
  const least = facts.notation.ofNumber(most.mass * factor, 'mass', facts.quantity(entry));
  return read(id, text, {
    unit: least.unit,
    planned: planned?.number,
    limit: { min: least.number },
    note: `${rounded(factor)} times the heaviest lift.${missing}`,
    source: 'policy handling.sling; common practice, no source',
  });
}

function elevators(facts: Facts): readonly Step[] {
  const rows = facts.rows('equipment.handling.elevators');
  const id = (name: string) => `before_leaving.lifting.elevator_${name}`;
  if (rows.length === 0) {
    const note = "The bores are not known: enter 'equipment.handling.elevators'.";
    return [act(id('any'), 'Take an elevator or lifting clamp for each diameter that is lifted.', { note })];
  }
  return rows.map((row) => {
    const item = row.text('item') ?? 'item';
    const bore = row.measure('bore');
    const diameter = facts.show(`${ITEM_KEYS[item as keyof typeof ITEM_KEYS]}.outer_diameter`);
    const fits =
      diameter === undefined
        ? `The diameter of the ${item} is not entered: measure it.`
        : `The ${item} is ${diameter} in diameter.`;
    return read(id(item), `Read the bore of the elevator for the ${item}.`, {
      unit: bore?.unit,
      planned: bore?.number,
      note: `${fits} The bore fits it within ${facts.showNumber(facts.evaluation.limit('handling.elevator'), 'small_length', 'equipment.motor.outer_diameter')}.`,
    });
  });
}

import type { Measure } from '../findings/finding.ts';
import type { Facts } from './facts.ts';
import { type Item, itemsOf } from './items.ts';
import { slugs } from './step.ts';

/** A joint that is made on site. */
export interface Connection {
  readonly id: string;
  readonly item: Item;
  readonly name: string;
  readonly joins: string | undefined;
  readonly torque: { readonly min: Measure | undefined; readonly max: Measure | undefined };
  /** The same in N.m, for the torque wrench. */
  readonly newtonMetres: { readonly min: number | undefined; readonly max: number | undefined };
  readonly fastener: string | undefined;
  readonly wrench: string | undefined;
  readonly seal: string | undefined;
  readonly fill: string | undefined;
}

/** The joints of one item, in the order of its sheet. */
export function connectionsOf(facts: Facts, item: Item): readonly Connection[] {
  const rows = facts.rows(`${item.key}.connections`);
  const names = rows.map((row) => row.text('name') ?? 'joint');
  const ids = slugs(names);
  return rows.map((row, index) => ({
    id: `${item.id}.${ids[index]}`,
    item,
    name: names[index] ?? 'joint',
    joins: row.text('joins'),
    torque: { min: row.measure('torque.min'), max: row.measure('torque.max') },
    newtonMetres: { min: row.number('torque.min'), max: row.number('torque.max') },
    fastener: row.text('fastener'),
    wrench: row.text('wrench'),
    seal: row.text('seal'),
    fill: row.text('fill'),
  }));
}

export function allConnections(facts: Facts): readonly Connection[] {
  return itemsOf(facts).flatMap((item) => connectionsOf(facts, item));
}

/** The same joint as the sheet of the other item has it, where both sheets tell of it: a flange has two sides. */
export function otherSide(facts: Facts, joint: Connection): Connection | undefined {
  const own = partiesOf(joint);
  if (own === undefined) return undefined;
  return allConnections(facts).find(
    (each) => each.item.id !== joint.item.id && each.item.downhole === joint.item.downhole && partiesOf(each) === own,
  );
}

/** What a joint joins, whichever is named first; sheets say `lead` for the motor lead and `cable` for the main one. */
function partiesOf({ joins = '' }: Connection): string | undefined {
  const parties = joins.toLowerCase().split(/\s+to\s+/);
  if (parties.length !== 2) return undefined;
  return parties
    .map((each) => each.replace(/^(?:the|motor|main)\s+(?=lead$|cable$)/, '').trim())
    .sort()
    .join(' to ');
}

const MM_PER_INCH = 25.4;

/** A size in millimetres with inches beside it, and the reverse: `17 mm (0.669 in), 12-point socket`. */
export function withBothSystems(text: string): string {
  const metric = text.replace(/(\d+(?:\.\d+)?)\s*mm\b(?!\s*\()/g, (size, number: string) => {
    return `${size} (${(Number(number) / MM_PER_INCH).toFixed(3)} in)`;
  });
  if (metric !== text) return metric;
  return text.replace(
    /(?:(\d+)[ -])?(\d+)\/(\d+)\s*in\b|(\d+(?:\.\d+)?)\s*in\b/g,
    (size, whole, top, bottom, plain) => {
      const inches = plain === undefined ? Number(whole ?? 0) + Number(top) / Number(bottom) : Number(plain);
      return Number.isFinite(inches) ? `${size} (${(inches * MM_PER_INCH).toFixed(1)} mm)` : size;
    },
  );
}

import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement } from '../declare.ts';
import { type Item, itemsOf } from '../slots.ts';

interface Numbered extends Item {
  /** Serial number without regard to case. */
  readonly serial: string;
  readonly written: string;
}

const isCable = ({ key }: Item) => key.startsWith('equipment.cable');

function numberedItems({ evaluation }: CheckContext): readonly Numbered[] {
  return itemsOf(evaluation).flatMap((item) => {
    const located = evaluation.locate(`${item.key}.serial`);
    const written = located === undefined ? '' : evaluation.installation.text(located).trim();
    return /[\p{L}\p{N}]{3}/u.test(written) ? [{ ...item, written, serial: written.toUpperCase() }] : [];
  });
}

/** Lengths of cable may come from one reel, and bear its number. */
function isRepeated(first: Numbered, second: Numbered): boolean {
  return first.serial === second.serial && !(isCable(first) && isCable(second));
}

export const NAMEPLATE_SERIAL_REPEATED: Check = check({
  id: 'nameplate.serial-repeated',
  severity: 'warning',
  title: 'one serial number for two pieces of equipment',
  compares:
    'the serial numbers of this well’s equipment with each other; lengths of cable may share that of their reel',
  why: 'One of the two was typed or pasted from the other, and nobody can tell on site whether the right one is on the truck.',
  mend: 'Read both from their plates.',
  source: 'common practice, no source',
  example: {
    lift: 'linear',
    fails: { 'equipment.pump.serial': 'LM-0472', 'equipment.motor.serial': 'LM-0472' },
    passes: { 'equipment.pump.serial': 'PL-1183', 'equipment.motor.serial': 'LM-0472' },
    at: 'equipment.motor.serial',
  },
  needs: {},
  run: (_, context) => {
    const items = numberedItems(context);
    return items.flatMap((item, at): Judgement[] => {
      const first = items.slice(0, at).find((other) => isRepeated(other, item));
      if (first === undefined) return [];
      return [
        {
          key: `${item.key}.serial`,
          message: `The serial number ${item.written} is entered for ${first.title} and for ${item.title}. Read both from their plates.`,
          related: [{ key: `${first.key}.serial`, message: `the serial number of ${first.title}` }],
        },
      ];
    });
  },
});

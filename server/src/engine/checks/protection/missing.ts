import { nearest } from '../../format/distance.ts';
import { capitalise } from '../../text/words.ts';
import { absent, NO_WORDS, present, switchedOn } from '../../values/conditions.ts';
import { isPresent, optionalText } from '../../values/declare.ts';
import type { CheckContext } from '../context.ts';
import { type Check, checkOfParts, type Part, part } from '../declare.ts';
import { keyOf, PROTECTIONS, type Protection } from './table.ts';

const GROUP = 'setpoints.protection';

export const PROTECTION_MISSING: Check = checkOfParts(
  {
    id: 'protection.missing',
    severity: 'error',
    title: 'protection missing',
    compares:
      'the protections that are set with those that every unit needs; overload, short circuit and earth fault are ' +
      'errors, underload, voltages, unbalances and motor temperature are warnings; and the delay of each trip that is ' +
      'set with none, a warning',
    why: 'What nothing watches for is noticed when the motor or the cable has burnt.',
    mend: "Enter the protection under 'setpoints.protection' with its trip and its delay, and do not switch it off.",
    source: 'common practice, no source',
    example: { lift: 'linear', fails: { 'setpoints.protection.overload': null }, at: keyOf('overload') },
  },
  [
    ...PROTECTIONS.flatMap((protection) =>
      protection.needed === undefined ? [] : [partFor(protection, protection.needed)],
    ),
    ...PROTECTIONS.flatMap((protection) =>
      protection.kind === undefined || protection.atOnce ? [] : [partForDelay(protection)],
    ),
  ],
);

/** A trip whose delay is left out keeps the delay that happens to be in the controller. */
function partForDelay({ name, title }: Protection): Part {
  const key = keyOf(name);
  return part({
    when: [...switchedOn(name), present(`${key}.trip`), absent(`${key}.delay`)],
    needs: {},
    run: () => ({
      key,
      severity: 'warning',
      message: `The ${title} protection has a trip and no delay: the controller keeps whatever it was left with. Enter its delay.`,
    }),
  });
}

function partFor(protection: Protection, { severity, when }: NonNullable<Protection['needed']>): Part {
  const key = keyOf(protection.name);
  return part({
    when,
    needs: {
      any: isPresent(GROUP),
      entered: isPresent(key),
      trip: isPresent(`${key}.trip`),
      enabled: optionalText(`${key}.enabled`),
    },
    run: ({ any, entered, trip, enabled }, context) => {
      if (!any || isMisspelt(protection.name, context)) return { lacks: [any ? key : GROUP] };
      const fault = faultOf(protection, entered, trip, enabled);
      if (fault === undefined) return undefined;
      const message = `${capitalise(protection.title)} protection ${fault}, so nothing stops the unit. Enter its trip and delay.`;
      return { key, severity, message };
    },
  });
}

function faultOf(protection: Protection, entered: boolean, trip: boolean, enabled: string | undefined) {
  if (!entered) return 'is not set';
  if (NO_WORDS.includes(enabled ?? '')) return 'is switched off';
  return trip || protection.kind === undefined ? undefined : 'has no trip';
}

/** A misspelt name is a finding of its own; its protection is not missing. */
function isMisspelt(name: string, { evaluation }: CheckContext): boolean {
  const { tree, shapes } = evaluation.installation.document;
  const unknown = [...tree.children(tree.find(GROUP))].filter((node) => shapes[node] === undefined);
  return unknown.some((node) => nearest(tree.key(node), [name]) === name);
}

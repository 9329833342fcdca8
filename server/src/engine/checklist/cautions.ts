import type { Facts } from './facts.ts';
import { caution, only, type Step } from './step.ts';

/** What every document of ours says of itself. */
export const DEFERRAL =
  'This sheet does not replace the maker’s manual, the site’s rules, local codes or licensed practice. ' +
  'Where one of them asks for more or says otherwise, it holds.';

/** The cautions of the work, in plain words; each is printed before the steps that it concerns. */
const TEXTS = {
  isolation:
    'Isolate every source, lock it out with your own lock and tag, and prove it dead with a detector that you tried ' +
    'on a live source before and after. A switch that is off is not isolated.',
  earthing:
    'Earthing comes before anything else: wellhead, transformer, drive and filter stand on one common earth before ' +
    'any cable is connected. Nothing is energised with an earth missing.',
  magnets:
    'A permanent-magnet machine generates voltage whenever it is turned or moved: in transport, in the free-movement ' +
    'test, while running in, and when fluid falls back through the pump. Keep the ends of the leads insulated and ' +
    'do not touch them; short-circuit and earth them before work on them.',
  magneticField:
    'The magnets are strong and cannot be switched off. They pinch fingers and pull tools; keep pacemakers, implants, ' +
    'watches and data carriers away, and keep steel chips off the mover.',
  movement:
    'Moving the mover or the shaft by hand makes voltage at the leads. Insulate the lead ends, keep everybody off ' +
    'them, and move slowly. Keep hands clear of what can move by its own weight.',
  stored:
    'Drive, filter and capacitors hold a dangerous charge after they are switched off. Wait for the discharge time ' +
    'on their plates, then measure that the voltage is gone before you touch anything.',
  insulation:
    'Before an insulation test disconnect the drive and the gauge, and keep everybody off the far end, which is live ' +
    'at the test voltage. Afterwards discharge and earth the conductors for at least four times the test’s duration.',
  tap:
    'A tap is changed only on a dead transformer: both sides isolated and locked out, proved dead and earthed. The ' +
    'motor and a second supply can feed it from the other side.',
  pressure:
    'Expect trapped pressure behind every valve, plug and seal. Know the barriers that are in place, bleed down ' +
    'slowly to a safe place, stand out of the line of fire, and prove zero before you loosen anything.',
  gas:
    'A well can give off gas at any time. Measure before and during the work, keep sources of ignition away, and ' +
    'go upwind when the alarm sounds.',
  sour:
    'This well has hydrogen sulphide. Nobody enters without a permit, a personal detector, breathing apparatus at ' +
    'hand and a second person who watches. The nose does not warn: the gas dulls it.',
  sourUnknown:
    'The file does not say whether this well has hydrogen sulphide (H2S). Until the site has said, work as if it had: ' +
    'permit, personal detector, breathing apparatus at hand, and a second person who watches.',
  classified:
    'The area is classified as hazardous. Instruments, lamps, telephones and tablets must be fit for the zone, or a ' +
    'hot-work permit with gas measurement covers them. An insulation test makes sparks.',
  areaUnknown:
    'The file does not say whether the area is hazardous. Until the site has said, only instruments, lamps, ' +
    'telephones and tablets that are fit for the zone come near the well. An insulation test makes sparks.',
  closedValve:
    'The pump is never started against a closed valve. ' +
    'Walk the line and see that every valve to the tank or separator is open.',
  plunger:
    'A plunger pump has no shut-off head: against a closed valve it builds up full pressure within a few strokes, ' +
    'until something bursts or the motor’s thrust is used up.',
  load:
    'Nobody stands or reaches under a suspended load. Keep the exclusion zone closed, use tag lines, and stop when ' +
    'the wind takes hold of the load.',
  sling:
    'The load on each leg of a sling grows as the angle to the horizontal falls: at 30 degrees each of two legs ' +
    'carries the whole load. Keep it above 60 degrees or take slings for more.',
  reel:
    'The cable reel is heavy and turns by itself. Chock and brake it, keep loose clothing away, and nobody stands ' +
    'between reel, sheave and well while the cable moves.',
  automatic:
    'The unit restarts by itself: it may start at any time, without warning. Isolate and lock out before any work, ' +
    'even when it stands still, and post the sign.',
  automaticUnknown:
    'The file does not say whether the unit restarts by itself. Until that is known it may start at any time, without ' +
    'warning: isolate and lock out before any work, even when it stands still.',
  override:
    'During the first-start override the protections against underload and low intake pressure are held off. ' +
    'Somebody attends at the controller for the whole time and stops the unit by hand if it is needed.',
  column:
    'After each stop the fluid in the tubing can fall back and turn the pump and motor backwards. Do not start while ' +
    'it turns, and treat the leads as live.',
} as const;

export type CautionName = keyof typeof TEXTS;

/** A caution under the id `STAGE.caution_NAME`, or with a place of its own between them. */
export function warn(stage: string, name: CautionName): Step {
  return caution(`${stage}.caution_${words(name)}`, TEXTS[name]);
}

function words(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

/** Gas at the well, in the measure that this well asks for. */
export function gasCautions(facts: Facts, stage: string): readonly Step[] {
  return [
    warn(stage, 'gas'),
    ...only(facts.hasSour, warn(stage, 'sour')),
    ...only(!facts.has('fluid.h2s'), warn(stage, 'sourUnknown')),
    ...areaCautions(facts, stage),
  ];
}

/** What may be taken near the well; in doubt as if the area were hazardous. */
export function areaCautions(facts: Facts, stage: string): readonly Step[] {
  return [
    ...only(facts.isClassified, warn(stage, 'classified')),
    ...only(!facts.has('site.hazardous_area'), warn(stage, 'areaUnknown')),
  ];
}

/** A unit that starts by itself; in doubt as if it did. */
export function restartCautions(facts: Facts, stage: string): readonly Step[] {
  return [
    ...only(facts.restartsItself, warn(stage, 'automatic')),
    ...only(!facts.has('setpoints.restart.mode'), warn(stage, 'automaticUnknown')),
  ];
}

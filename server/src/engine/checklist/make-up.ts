import { capitalise } from '../text/words.ts';
import { type Connection, otherSide, withBothSystems } from './connections.ts';
import type { Facts } from './facts.ts';
import { rounded } from './notation.ts';
import { act, only, read, type StageId, type Step, type StepDetails } from './step.ts';

/** NIST SP 811. */
export const NEWTON_METRES_PER_POUND_FOOT = 1.3558179483314;

/** The steps of one joint: seal, fill, then the torque, so that nothing is closed before it is full. */
export function connectionSteps(facts: Facts, each: Connection, stage: StageId): readonly Step[] {
  const id = `${stage}.${each.id}`;
  const name = `${each.item.title}, ${each.name}`;
  return [
    ...only(
      each.seal !== undefined,
      act(`${id}.seal`, `${capitalise(name)}: fit ${withBothSystems(each.seal ?? '')}, clean and undamaged.`),
    ),
    ...only(
      each.fill !== undefined,
      act(`${id}.fill`, `${capitalise(name)}: fill ${each.fill ?? ''}, slowly and without air.`),
    ),
    withOtherSide(makeUp(each, id, name), otherSide(facts, each), stage),
  ];
}

/** A crew that finds one flange twice is told so, or it looks for a second one. */
function withOtherSide(step: Step, other: Connection | undefined, stage: StageId): Step {
  if (other === undefined) return step;
  const same = `The same joint as '${stage}.${other.id}', by the sheet of the other item: make it up once, within both limits, and enter it at both.`;
  return { ...step, note: step.note === undefined ? same : `${step.note} ${same}` };
}

function makeUp(each: Connection, id: string, name: string): Step {
  // A splice or a crimp has no torque to be read.
  const isTorqued = each.torque.min !== undefined || each.torque.max !== undefined || each.item.kind !== 'cable';
  if (!isTorqued) return act(id, `Make ${name}${details(each)}, phase to phase as marked; write down who made it.`);
  const isPattern = /^\s*([2-9]|\d{2,})\s*[x×]/.test(each.fastener ?? '');
  const how = isPattern ? 'crosswise and in steps' : 'in one steady pull';
  return read(id, `Make up ${name}${details(each)}, ${how}; enter the torque.`, torque(each));
}

function details({ joins, fastener, wrench }: Connection): string {
  const parts = [joins, fastener, wrench].filter((each) => each !== undefined).map(withBothSystems);
  return parts.length === 0 ? '' : ` (${parts.join('; ')})`;
}

function torque({ torque: { min, max }, newtonMetres, item }: Connection): StepDetails {
  const unit = min?.unit ?? max?.unit ?? 'N.m';
  const limit = min === undefined && max === undefined ? undefined : { min: min?.number, max: max?.number };
  if (limit === undefined)
    return { unit, note: `A limit is not known: enter 'torque' at this joint under '${item.key}.connections'.` };
  const pounds = [newtonMetres.min, newtonMetres.max]
    .filter((each) => each !== undefined)
    .map((each) => rounded(each / NEWTON_METRES_PER_POUND_FOOT));
  const newtons = [newtonMetres.min, newtonMetres.max].filter((each) => each !== undefined).map(rounded);
  const other = unit === 'N.m' ? `${pounds.join(' to ')} lbf.ft` : `${newtons.join(' to ')} N.m`;
  return { unit, limit, note: `That is ${other}.`, source: 'data sheet' };
}

import { caseText, optionalInCase, optionalValue, type Seen } from '../../values/declare.ts';
import { State } from '../../values/evaluation.ts';
import { missingEntries } from '../../values/missing.ts';
import { pacingKey } from '../case-keys.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Verdict } from '../declare.ts';

/** What must have a solution for pump and well to meet, in the order in which they are found. */
const MEETING = ['intake.running_pressure', 'pump.rate'];

const NEEDS = {
  intake: caseText('intake', ''),
  stated: optionalInCase('intake_pressure'),
  rate: optionalValue('pump.rate'),
  most: optionalValue('inflow.max_rate'),
  shutOff: optionalValue('pump.shut_off_head'),
  needed: optionalValue('lift.static_head'),
};

/** Whether all numbers are there and pump and well do not meet; or which entries it takes to tell. */
function meeting({ evaluation, caseIndex }: CheckContext): 'met' | 'missed' | readonly string[] {
  for (const id of MEETING) {
    const node = evaluation.network.byId.get(id);
    const state = node === undefined ? State.notApplicable : evaluation.state(node, caseIndex);
    if (state === State.none) return 'missed';
    if (node !== undefined && state === State.missing) return missingEntries(evaluation, node, caseIndex);
  }
  return 'met';
}

function reason(context: CheckContext, { rate, most, shutOff, needed }: Seen<typeof NEEDS>): string {
  const flow = (number: number) => context.show(number, 'volume_rate', 'operation.target_rate');
  const head = (number: number) => context.show(number, 'length', 'well.intake.tvd');
  if (shutOff !== undefined && needed !== undefined) {
    return shutOff <= needed
      ? `its head against a closed valve, ${head(shutOff)}, does not reach the ${head(needed)} that it must hold: nothing moves. Raise the frequency or take more stages.`
      : 'its curve ends before it meets well and tubing. Lower the frequency, or take a pump for a greater rate.';
  }
  if (rate !== undefined && most !== undefined) {
    return `it draws ${flow(rate)} at the intake, and the well gives ${flow(most)} at most, at the surface: it pumps off. Slow it down or shorten its stroke.`;
  }
  return 'their curves do not meet. Look at rate, depth and inflow.';
}

function judge(context: CheckContext, seen: Seen<typeof NEEDS>): Verdict {
  return {
    key: pacingKey(context),
    message: `Pump and well do not come together in the case '${context.caseName}': ${reason(context, seen)}`,
    follows: ['pump.curve-not-falling'],
  };
}

export const PUMP_NO_OPERATING_POINT: Check = check({
  id: 'pump.no-operating-point',
  severity: 'error',
  title: 'pump and well do not come together',
  compares:
    'what the pump can do with what well and tubing ask of it, in each case: the curves of a rotary pump and its ' +
    'well must ' +
    'meet; a plunger must not draw more than the well gives',
  why: 'The case cannot be: the pump moves nothing, or empties the well. Nothing that rests on its rate can be told.',
  mend: 'Change frequency, stroke or pump; look at depth, productivity index and target with their units.',
  source: 'data-sheet curve and affinity laws; straight-line and Vogel inflow',
  example: { lift: 'rotary', fails: { 'operation.cases[1].frequency': '30 Hz' }, at: 'operation.cases[1].frequency' },
  needs: NEEDS,
  run: (seen, context) => {
    // A case that says nothing of its intake has no pressure to meet at.
    if (seen.intake === '' && seen.stated === undefined)
      return { lacks: [`operation.cases[${context.caseIndex}].intake`] };
    const outcome = meeting(context);
    if (outcome === 'met') return undefined;
    return outcome === 'missed' ? judge(context, seen) : { lacks: outcome };
  },
});

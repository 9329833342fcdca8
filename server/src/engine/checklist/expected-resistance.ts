import { temperatureFactor } from '../values/electrical/conductor.ts';
import type { Facts } from './facts.ts';
import { cablesOf, type Item } from './items.ts';
import { rounded } from './notation.ts';
import type { StepDetails } from './step.ts';

/** A resistance between two phases, ohm, and the temperatures for which it holds. */
export interface ExpectedResistance {
  readonly ohms: number;
  readonly basis: string;
}

/**
 * Winding resistance line to line at 20 degC as measured at the end of the motor lead: R + 2·R_lead.
 * @returns undefined where the motor's sheet gives no resistance
 * Source: two phases in series, copper 0.00393 /K at 20 degC (IEC 60028).
 */
export function throughLead(facts: Facts): ExpectedResistance | undefined {
  const winding = facts.number('equipment.motor.phase_resistance');
  if (winding === undefined) return undefined;
  const lead = leadAt20(facts);
  if (lead === undefined) return { ohms: winding, basis: 'at 20 degC, at the motor’s own terminals' };
  return { ohms: winding + 2 * lead, basis: 'at 20 degC, through the motor lead' };
}

/**
 * Resistance of two conductors of a cable in series at 20 degC, their far ends joined: 2·R.
 * @returns undefined where it is not known, and for one of several sections: their resistance is known together only
 * Source: copper conductors in series, IEC 60228 or the data sheet.
 */
export function ofConductors(facts: Facts, item: Item): ExpectedResistance | undefined {
  const basis = 'at 20 degC, out and back';
  if (item.id === 'motor_lead') {
    const lead = leadAt20(facts);
    return lead === undefined ? undefined : { ohms: 2 * lead, basis };
  }
  const perLength = facts.value('cable.resistance_20')?.number;
  const length = facts.value('cable.main_length')?.number;
  const isWhole = cablesOf(facts).length === 1;
  return !isWhole || perLength === undefined || length === undefined
    ? undefined
    : { ohms: 2 * perLength * length, basis };
}

function leadAt20(facts: Facts): number | undefined {
  if (!facts.has('equipment.cable.motor_lead')) return undefined;
  const lead = facts.value('cable.lead_resistance')?.number;
  const temperature = facts.value('cable.lead_temperature')?.number;
  return lead === undefined || temperature === undefined ? undefined : lead / temperatureFactor(temperature);
}

/**
 * Winding resistance line to line as measured at surface: R·[1 + 0.00393·(T_intake − 20)] + 2·R_cable, with the cable
 * at the temperature of the case `cable: cold` if there is one.
 * @returns undefined where winding or cable resistance is not known
 * Source: two phases in series, copper 0.00393 /K at 20 degC (IEC 60028).
 */
export function throughCable(facts: Facts): ExpectedResistance | undefined {
  const winding = facts.number('equipment.motor.phase_resistance');
  const intake = facts.value('intake.temperature')?.number;
  const cold = facts.evaluation.eachCaseText('cable').indexOf('cold');
  const at = Math.max(0, cold);
  const cable = facts.value('cable.resistance', at)?.number;
  if (winding === undefined || intake === undefined || cable === undefined) return undefined;
  const state = cold < 0 ? 'the cable warm as in' : 'the cable cold as in';
  const basis = `winding at ${facts.showNumber(intake, 'temperature')}, ${state} the case '${facts.evaluation.caseName(at)}'`;
  return { ohms: winding * temperatureFactor(intake) + 2 * cable, basis };
}

/** Unit, limit and balance of the winding resistance as it is measured through the cable. */
export function throughCableDetails(facts: Facts): StepDetails {
  const expected = throughCable(facts);
  const share = facts.evaluation.limit('readings.winding-unbalance');
  const unbalance = `No reading is more than ${rounded(share * 100)} % of the mean away from the mean.`;
  if (expected === undefined) {
    return {
      unit: 'ohm',
      unbalanceMax: share,
      note: `${unbalance} A limit is not known: enter 'equipment.motor.phase_resistance' and the cable’s conductor and length.`,
    };
  }
  const { number, unit } = facts.notation.ofNumber(
    expected.ohms,
    'resistance',
    facts.quantity('equipment.motor.phase_resistance'),
  );
  const width = facts.evaluation.limit('readings.unexpected-resistance');
  return {
    unit,
    expected: number,
    limit: { min: rounded(number * (1 - width)), max: rounded(number * (1 + width)) },
    unbalanceMax: share,
    note: `Expected with the ${expected.basis}. ${unbalance}`,
    source: 'policy readings.unexpected-resistance; common practice, no source',
  };
}

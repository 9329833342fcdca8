import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Evaluation, stepsOf } from '../../server/src/engine/index.ts';
import { checked, type Edits, edited, openProject, SAMPLES } from '../support/project.ts';
import { type Circuit, netlistOf } from './circuit.ts';
import { lineVoltage, Spice } from './ngspice.ts';

// The electrical chain against ngspice 3 (compiled to WebAssembly, package eecircuit-engine): the same circuit, built
// here from the nameplates alone, solved by somebody else's program. Agreement 0.1 %.

const LINEAR = join(SAMPLES, 'pad-a/qm-a1.yaml');
const ROTARY = join(SAMPLES, 'pad-b/qm-b1.yaml');
const INDUCTION = join(SAMPLES, 'pad-a/qm-a3.yaml');
const TOLERANCE = 1e-3;

/** Conductors of the samples, ohm/km at 20 degC: IEC 60228 class 2, plain copper. */
const IEC_60228: Readonly<Record<string, number>> = { '10 mm2': 1.83, '16 mm2': 1.15, '25 mm2': 0.727 };

let spice: Spice;
beforeAll(async () => {
  spice = await Spice.start();
});

/** Reads entries and values of one case, and fails loudly where one is missing. */
class Well {
  readonly #evaluation: Evaluation;
  readonly #at: number;

  constructor(evaluation: Evaluation, at: number) {
    this.#evaluation = evaluation;
    this.#at = at;
  }

  entry(key: string): number {
    return this.#there(key, this.#evaluation.entryNumber(key, stepsOf(key)));
  }

  text(key: string): string {
    return this.#evaluation.entryText(key, stepsOf(key)) ?? '';
  }

  value(id: string): number {
    return this.#there(id, this.#evaluation.number(id, this.#at));
  }

  #there(name: string, number: number | undefined): number {
    if (number === undefined) throw new Error(`${name} is not available`);
    return number;
  }
}

function copper(temperature: number): number {
  return 1 + 0.00393 * (temperature - 20);
}

/** The circuit of a case from nameplates, with currents and temperatures as the engine has them. */
function circuitOf(well: Well): Circuit {
  const frequency = well.value('motor.frequency');
  return {
    frequency,
    current: well.value('motor.current'),
    ...machineOf(well),
    cable: cableOf(well),
    transformer: transformerOf(well),
  };
}

function machineOf(well: Well): Pick<Circuit, 'emf' | 'winding'> {
  return well.text('equipment.motor.type') === 'induction' ? byImpedance(well) : byEmf(well);
}

/** A permanent-magnet machine: emf, winding and synchronous inductance from rated voltage, current and power factor. */
function byEmf(well: Well): Pick<Circuit, 'emf' | 'winding'> {
  const phase = well.entry('equipment.motor.voltage') / Math.sqrt(3);
  const factor = well.entry('equipment.motor.power_factor');
  const rated = well.entry('equipment.motor.current');
  const ratedFrequency = well.entry('equipment.motor.frequency');
  const cold = well.entry('equipment.motor.phase_resistance') / 2;
  const intake = well.value('intake.temperature');
  const rise = well.entry('equipment.motor.temperature_rise');
  const rms = well.value('motor.current_rms');
  const ratedEmf = phase * factor - rated * cold * copper(intake + rise);
  return {
    emf: (ratedEmf * well.value('motor.frequency')) / ratedFrequency,
    winding: {
      resistance: cold * copper(intake + rise * (rms / rated) ** 2),
      inductance: (phase * Math.sqrt(1 - factor ** 2)) / rated / (2 * Math.PI * ratedFrequency),
    },
  };
}

/** An induction machine by the impedance that draws its current at its voltage and power factor. */
function byImpedance(well: Well): Pick<Circuit, 'emf' | 'winding'> {
  const impedance = well.value('motor.voltage') / Math.sqrt(3) / well.value('motor.current');
  const factor = well.value('motor.power_factor');
  const reactance = impedance * Math.sqrt(1 - factor ** 2);
  return {
    emf: 0,
    winding: {
      resistance: impedance * factor,
      inductance: reactance / (2 * Math.PI * well.value('motor.frequency')),
    },
  };
}

function cableOf(well: Well): Circuit['cable'] {
  const run = (slot: string, temperature: number) => {
    const perKilometre = IEC_60228[well.text(`${slot}.conductor`)];
    if (perKilometre === undefined) throw new Error(`no standard resistance for ${slot}`);
    const length = well.entry(`${slot}.length`);
    return {
      resistance: (length * perKilometre * copper(temperature)) / 1000,
      inductance: length * well.entry(`${slot}.inductance`),
    };
  };
  const main = run('equipment.cable.main', well.value('cable.conductor_temperature'));
  const lead = run('equipment.cable.motor_lead', well.value('cable.lead_temperature'));
  return { resistance: main.resistance + lead.resistance, inductance: main.inductance + lead.inductance };
}

function transformerOf(well: Well): Circuit['transformer'] {
  const tap = well.value('transformer.tap_voltage');
  const base = tap ** 2 / well.entry('equipment.transformer.power');
  const resistive = well.entry('equipment.transformer.load_loss') / well.entry('equipment.transformer.power');
  const impedance = well.entry('equipment.transformer.impedance');
  const reactive = Math.sqrt(impedance ** 2 - resistive ** 2);
  return {
    resistance: resistive * base,
    inductance: (reactive * base) / (2 * Math.PI * well.entry('equipment.transformer.frequency')),
  };
}

async function compare(evaluation: Evaluation, at: number): Promise<void> {
  const well = new Well(evaluation, at);
  const circuit = circuitOf(well);
  const nodes = await spice.solve(netlistOf(circuit), circuit.frequency);
  const motor = lineVoltage(nodes.get('v(motor)'));
  const surface = lineVoltage(nodes.get('v(surface)'));
  const emf = lineVoltage(nodes.get('v(emf)'));
  const drive = (emf * well.entry('equipment.transformer.primary_voltage')) / well.value('transformer.tap_voltage');
  const within = (id: string, reference: number, scale = reference) =>
    expect(Math.abs(well.value(id) - reference), id).toBeLessThanOrEqual(TOLERANCE * scale);
  within('motor.voltage', motor);
  within('surface.required_voltage', surface);
  within('cable.voltage_drop', surface - motor);
  within('transformer.emf', emf);
  within('drive.output_voltage', drive);
}

async function compareAll(path: string, edits: Edits): Promise<number> {
  const worked = checked(edited(openProject(path), path, edits), path).worked;
  if (worked === undefined) throw new Error(`${path} could not be worked out`);
  for (let at = 0; at < worked.evaluation.caseCount; at++) await compare(worked.evaluation, at);
  return worked.evaluation.caseCount;
}

describe('the electrical chain against ngspice', () => {
  it('agrees for each case of a linear well, at 2 to 4 Hz', async () => {
    expect(await compareAll(LINEAR, {})).toBeGreaterThanOrEqual(3);
  });

  it('agrees for each case of a rotary well', async () => {
    expect(await compareAll(ROTARY, {})).toBeGreaterThanOrEqual(3);
  });

  // Lengths, temperatures, water cuts and wellhead pressures spread over what wells have; each gives one circuit a case.
  const LENGTHS = ['600 m', '1432 m', '2600 m'];
  const TEMPERATURES = ['35 degC', '58 degC', '82 degC'];
  const WATER_CUTS = ['0 %', '40 %', '95 %'];
  const WELLHEADS = ['4 bar', '12 bar', '25 bar'];
  const GRID = LENGTHS.flatMap((length) =>
    TEMPERATURES.flatMap((temperature) =>
      WATER_CUTS.flatMap((waterCut) => WELLHEADS.map((wellhead) => ({ length, temperature, waterCut, wellhead }))),
    ),
  );

  it('agrees over a grid of more than two hundred circuits', async () => {
    let circuits = 0;
    for (const { length, temperature, waterCut, wellhead } of GRID) {
      circuits += await compareAll(LINEAR, {
        'equipment.cable.main.length': length,
        'reservoir.temperature': temperature,
        'fluid.water_cut': waterCut,
        'well.wellhead.tubing_pressure': wellhead,
      });
    }
    expect(circuits).toBeGreaterThan(200);
  });

  // Rotary wells: a permanent-magnet motor at 104 Hz and an induction motor at 49 Hz, on short and on long cables.
  const ROTARY_WELLS = [
    { path: ROTARY, lengths: ['900 m', '1750 m', '2600 m'], taps: ['2', '4', '7'] },
    { path: INDUCTION, lengths: ['1000 m', '1915 m', '2700 m'], taps: ['3', '5', '7'] },
  ];
  const ROTARY_GRID = ROTARY_WELLS.flatMap(({ path, lengths, taps }) =>
    lengths.flatMap((length) =>
      taps.flatMap((tap) =>
        ['35 %', '90 %'].flatMap((waterCut) =>
          ['9 bar', '22 bar'].map((wellhead) => ({ path, length, tap, waterCut, wellhead })),
        ),
      ),
    ),
  );

  it('agrees over a grid of more than two hundred circuits of rotary wells', async () => {
    let circuits = 0;
    for (const { path, length, tap, waterCut, wellhead } of ROTARY_GRID) {
      circuits += await compareAll(path, {
        'equipment.cable.main.length': length,
        'setpoints.transformer.tap': tap,
        'fluid.water_cut': waterCut,
        'well.wellhead.tubing_pressure': wellhead,
      });
    }
    expect(circuits).toBeGreaterThan(200);
  });
});

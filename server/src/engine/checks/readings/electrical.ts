import { type Check, foundInVisit } from '../declare.ts';

export const WINDING_UNBALANCE: Check = foundInVisit({
  id: 'readings.winding-unbalance',
  severity: 'error',
  title: 'three resistances that are not alike',
  compares: 'the greatest deviation of three line-to-line resistances from their mean, over the mean, with its limit',
  why: 'Windings and conductors are made alike. One that differs has shorted turns, a bad joint or a broken strand.',
  mend: 'Measure again with four wires and clean clamps; if it stays, find out on which side of each joint it lies.',
  source: 'the data sheet of the item; otherwise 5 % (common practice, no source)',
  example: {
    visit: 'linear',
    fails: { 'row inspection.motor.winding_resistance': '{ values: [9.5 ohm, 9.5 ohm, 10.5 ohm] }' },
    at: 'row inspection.motor.winding_resistance',
  },
});

export const INSULATION: Check = foundInVisit({
  id: 'readings.insulation',
  severity: 'error',
  title: 'insulation resistance below its limit',
  compares:
    'each insulation resistance with the least that the data sheet asks for; that of a motor at receipt as read, and ' +
    'as it would be at 40 degC',
  why: 'Insulation that is low at receipt is lower in the well, where it is hot and wet, and fails at the first surge.',
  mend: 'Clean and dry the ends, discharge, measure again at the right voltage and time. If it stays low, do not run it.',
  source:
    'the data sheet; IEEE 43-2013 6.3 for the temperature: it halves with every 10 K (from memory; beyond 20 K of ' +
    'correction a guide only, and then a warning). Cables, leads and the installed string are judged as read',
  example: {
    visit: 'linear',
    fails: { 'row inspection.motor.insulation': '{ value: 12 Mohm }' },
    at: 'row inspection.motor.insulation',
  },
});

export const UNEXPECTED_RESISTANCE: Check = foundInVisit({
  id: 'readings.unexpected-resistance',
  severity: 'warning',
  title: 'resistance that is not the computed one',
  compares:
    'the mean of the three resistances with what windings, lead and cable come to by computation at their temperature',
  why: 'Too much is a bad joint or another cable; too little is another motor, shorted turns or a shorter cable.',
  mend: 'Compare motor, lead, cable and lengths with the file; measure again with the leads of the meter taken off.',
  source: '10 % (common practice, no source); copper 0.00393 /K at 20 degC (IEC 60028)',
  example: {
    visit: 'linear',
    fails: { 'row surface.cable.resistance': '{ values: [21 ohm, 21 ohm, 21 ohm] }' },
    at: 'row surface.cable.resistance',
  },
});

export const CURRENT_UNBALANCE: Check = foundInVisit({
  id: 'readings.current-unbalance',
  severity: 'warning',
  title: 'running currents that are not alike',
  compares:
    'the greatest deviation of the three phase currents from their mean, over the mean, at each time of the log',
  why: 'An unbalanced current heats the motor without driving it, and tells of a phase that is about to be lost.',
  mend: 'Roll the phases at the wellhead and read again: if the odd one stays with the supply, look there, else below.',
  source: 'the form of NEMA MG-1 for voltages, 20 % for currents (common practice, no source)',
  example: {
    visit: 'linear',
    fails: {
      'row start.log.current_a': '{ values: [12 A] }',
      'row start.log.current_b': '{ values: [12 A] }',
      'row start.log.current_c': '{ values: [7 A] }',
    },
    at: 'row start.log.current_a',
  },
});

export const VOLTAGE_UNBALANCE: Check = foundInVisit({
  id: 'readings.voltage-unbalance',
  severity: 'warning',
  title: 'supply voltages that are not alike',
  compares: 'the greatest deviation of the three line-to-line voltages from their mean, over the mean',
  why: 'A few per cent of unbalanced voltage make several times as much unbalanced current in the motor.',
  mend: 'Ask the supplier, look for a fuse or a joint, and do not start before it is found.',
  source: 'NEMA MG-1 12.45 (from memory), 5 %',
  example: {
    visit: 'linear',
    fails: { 'row surface.supply.voltage': '{ values: [400 V, 400 V, 361 V] }' },
    at: 'row surface.supply.voltage',
  },
});

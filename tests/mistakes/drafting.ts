import type { Mistake } from './mistake.ts';

const P = 'setpoints.protection';

/** Slips of drafting from a maker's sheets, a well file and the last well's file. */
export const DRAFTING: readonly Mistake[] = [
  {
    id: 'supply-zero',
    did: 'left a zero where the voltage of the supply was to come',
    well: 'qm-a1',
    edits: { 'supply.voltage': '0 V' },
  },
  {
    id: 'supply-in-kilovolts-of-the-line',
    did: 'took the voltage of the overhead line',
    well: 'qm-b2',
    edits: { 'supply.voltage': '13.8 kV' },
  },
  {
    id: 'overload-zero',
    did: 'left a zero where the trip was to come',
    well: 'qm-c1',
    edits: { [`${P}.overload.trip`]: '0 A' },
  },
  {
    id: 'tap-voltage-zero',
    did: 'entered the tap and left its voltage at zero',
    well: 'qm-c2',
    edits: { 'setpoints.transformer.voltage': '0 V' },
  },
  {
    id: 'casing-pressure-below-vacuum',
    did: 'put a minus before the casing pressure',
    well: 'qm-a2',
    edits: { 'well.wellhead.casing_pressure': '-4 bar' },
  },
  {
    id: 'reservoir-zero',
    did: 'left a zero for the reservoir pressure',
    well: 'qm-b1',
    edits: { 'reservoir.pressure': '0 bar' },
  },
  {
    id: 'drive-current-zero',
    did: 'left a zero on the sheet of the drive',
    well: 'qm-a1',
    sheet: 'equipment/drives/drive-50.yaml',
    edits: { output_current: '0 A' },
    also: ['equipment.drive'],
  },
  {
    id: 'ampacity-zero',
    did: 'left a zero on the sheet of the cable',
    well: 'qm-a1',
    sheet: 'equipment/cables/flat-16.yaml',
    edits: { 'ampacity.current': '0 A' },
    also: ['equipment.cable'],
  },
  {
    id: 'perforations-above-intake',
    did: 'took the depths of a shallower zone',
    well: 'qm-a1',
    edits: { 'well.perforations.md': '1310 m', 'well.perforations.tvd': '1290 m' },
    also: ['well.intake'],
  },
  {
    id: 'drift-below-motor',
    did: 'took the drift of the next heavier casing',
    well: 'qm-b2',
    edits: { 'well.casing.drift': '4.2 in' },
    also: ['equipment.motor'],
  },
  {
    id: 'kill-fluid-lighter-than-produced',
    did: 'took the density of diesel for the kill fluid',
    well: 'qm-b2',
    edits: { 'operation.cases[0].fluid_density': '52 lb/ft3' },
    note: true,
  },
  {
    id: 'case-copied-with-old-frequency',
    did: 'copied the start case from a well that runs slower',
    well: 'qm-b2',
    edits: { 'operation.cases[0].frequency': '45 Hz' },
    also: ['setpoints.drive.min_frequency'],
  },
  {
    id: 'test-voltage-above-gauge',
    did: 'tests the motor with the voltage that the gauge does not stand',
    well: 'qm-a1',
    sheet: 'equipment/gauges/pt-basic.yaml',
    edits: { test_voltage_max: '100 V' },
    also: ['equipment.gauge', 'equipment.motor', 'equipment.cable'],
  },
  {
    id: 'overload-basis-of-the-peak',
    did: 'set the overload on the peak of the stroke',
    well: 'qm-a1',
    edits: { [`${P}.overload.basis`]: 'stroke_peak' },
    also: [`${P}.overload`],
  },
  {
    id: 'stall-on-the-average',
    did: 'set the stall trip on the average of the cycle',
    well: 'qm-a1',
    edits: { [`${P}.stall.basis`]: 'cycle_rms' },
    also: [`${P}.stall`],
  },
  {
    id: 'short-circuit-below-locked-rotor',
    did: 'took a multiple of the running current, on the line',
    well: 'qm-c1',
    edits: { [`${P}.short_circuit.trip`]: '95 A' },
  },
  {
    id: 'restart-within-the-back-flow',
    did: 'shortened the delay though the tubing has no check valve',
    well: 'qm-b2',
    edits: { 'well.tubing.check_valve': 'no', 'setpoints.restart.delay': '10 min' },
  },
  {
    id: 'override-below-pump-down',
    did: 'copied the override of a shallow rotary well',
    well: 'qm-a2',
    edits: { 'setpoints.start.override': '40 min' },
  },
  {
    id: 'deviation-expired',
    did: 'kept the deviation of last year',
    well: 'qm-a1',
    edits: {
      deviations:
        '[ { check: cable.voltage-drop, key: setpoints, case: "*", up_to: 12 %, reason: old cable, approved_by: chief engineer, until: 2025-06-30 } ]',
    },
  },
  {
    id: 'deviation-of-no-check',
    did: 'wrote the name of the check from memory',
    well: 'qm-b1',
    edits: {
      deviations:
        '[ { check: cable.drop-voltage, key: setpoints, case: "*", reason: old cable, approved_by: chief engineer, until: 2027-06-30 } ]',
    },
  },
  {
    id: 'deviation-unapproved',
    did: 'wrote a deviation that nobody has approved',
    well: 'qm-b2',
    edits: {
      deviations: '[ { check: cable.voltage-drop, key: setpoints, case: "*", reason: old cable, until: 2027-06-30 } ]',
    },
  },
  {
    id: 'revision-by-the-same-hand',
    did: 'checked the own file under another spelling',
    well: 'qm-c1',
    edits: { 'revision.checked_by': 'Drafting Engineer' },
  },
  {
    id: 'revision-of-next-year',
    did: 'wrote next year into the revision',
    well: 'qm-c3',
    edits: { 'revision.date': '2027-08-11' },
    note: true,
  },
  {
    id: 'generator-not-told',
    did: 'took a generator for the grid and its tolerance',
    well: 'qm-b1',
    edits: { 'supply.tolerance': '25 %' },
    also: ['supply', P],
  },
  {
    id: 'motor-serial-of-the-pump',
    did: 'wrote the serial of the pump at the motor',
    well: 'qm-b2',
    edits: { 'equipment.motor.serial': 'CP-0846' },
    also: ['equipment.pump'],
  },
  {
    id: 'drive-variant-of-the-other-voltage',
    did: 'pointed to the sheet of the 480 V variant',
    well: 'qm-a1',
    edits: { 'equipment.drive.datasheet': '../equipment/drives/drive-50-480.yaml' },
    also: ['supply'],
  },
  {
    id: 'insulation-override-of-another-serial',
    did: 'kept the insulation class of the rewound motor of the last well',
    well: 'qm-a1',
    edits: { 'equipment.motor.insulation_temperature': '105 degC' },
    also: ['equipment.motor'],
  },
  {
    id: 'tapered-cable-reversed',
    did: 'entered the sections of the tapered cable bottom first',
    well: 'qm-c3',
    edits: {
      'equipment.cable.main[0].datasheet': '../equipment/cables/flat-25-hot.yaml',
      'equipment.cable.main[1].datasheet': '../equipment/cables/flat-35.yaml',
    },
    also: ['equipment.cable'],
  },
];

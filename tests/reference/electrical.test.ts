import { describe, expect, it } from 'vitest';
import { awgArea } from '../../server/src/engine/quantity/wire-gauge.ts';
import {
  isAwgArea,
  standardResistance,
  temperatureFactor,
} from '../../server/src/engine/values/electrical/conductor.ts';
import { approximateDrop, receivingVoltage, sendingVoltage } from '../../server/src/engine/values/electrical/phasor.ts';
import { agree } from './row.ts';

const KFT = 304.8;
const FACTOR_75 = temperatureFactor(75);
const metric = (mm2: number) => standardResistance(mm2 * 1e-6, false) * 1000;
const awg = (gauge: number) => standardResistance(awgArea(gauge), true) * 1000;

describe('conductors', () => {
  const iec = 'IEC 60228:2004 table 2, three public reproductions, R';
  const table = { 10: 1.83, 16: 1.15, 25: 0.727, 35: 0.524, 50: 0.387, 70: 0.268, 95: 0.193, 120: 0.153, 150: 0.124 };
  const outer = {
    0.5: 36.0,
    1.5: 12.1,
    2.5: 7.41,
    4: 4.61,
    6: 3.08,
    185: 0.0991,
    240: 0.0754,
    300: 0.0601,
    400: 0.047,
    500: 0.0366,
    630: 0.0283,
  };
  agree(
    Object.entries({ ...table, ...outer }).map(([mm2, expected]) => ({
      what: `${mm2} mm2, ohm/km`,
      actual: () => metric(Number(mm2)),
      expected,
      tolerance: 1e-12,
      source: iec,
    })),
  );

  // AWG: diameter mm, circular mils, solid ohm/km at 20 degC, NEC stranded ohm/kft at 75 degC.
  const gauges: readonly (readonly [number, number, number, number, number])[] = [
    [8, 3.2636, 16510, 2.061, 0.778],
    [6, 4.1154, 26251, 1.2962, 0.491],
    [4, 5.1894, 41741, 0.8152, 0.308],
    [3, 5.8273, 52634, 0.6465, 0.245],
    [2, 6.5437, 66371, 0.5127, 0.194],
    [1, 7.3481, 83693, 0.4066, 0.154],
    [0, 8.2515, 105535, 0.3224, 0.122],
    [-1, 9.2658, 133077, 0.2557, 0.0967],
    [-2, 10.4049, 167806, 0.2028, 0.0766],
    [-3, 11.684, 211600, 0.1608, 0.0608],
  ];
  const CIRCULAR_MIL = (Math.PI / 4) * 0.0254e-3 ** 2;
  agree(
    gauges.flatMap(([gauge, diameter, mils, solid, stranded]) => [
      {
        what: `AWG ${gauge}, diameter mm`,
        actual: () => Math.sqrt((4 * awgArea(gauge)) / Math.PI) * 1000,
        expected: diameter,
        tolerance: 1e-4,
        source: 'ASTM B258 (M), D',
      },
      {
        what: `AWG ${gauge}, circular mils`,
        actual: () => awgArea(gauge) / CIRCULAR_MIL,
        expected: mils,
        tolerance: 1e-4,
        source: 'open textbook table, R',
      },
      {
        what: `AWG ${gauge}, ohm/km without lay`,
        actual: () => awg(gauge) / 1.02,
        expected: solid,
        tolerance: 2e-4,
        source: 'D, with NBS Handbook 100 (M)',
      },
      {
        what: `AWG ${gauge}, ohm/kft at 75 degC`,
        actual: () => (awg(gauge) * FACTOR_75 * KFT) / 1000,
        expected: stranded,
        tolerance: 0.01,
        source: 'NFPA 70 chapter 9 table 8, stranded, R; three digits',
      },
    ]),
  );

  agree([
    {
      what: '20 to 75 degC',
      actual: () => temperatureFactor(75),
      expected: 1.2161,
      tolerance: 1e-4,
      source: 'CV-1.1: D',
    },
    {
      what: '20 to 90 degC',
      actual: () => temperatureFactor(90),
      expected: 1.2751,
      tolerance: 1e-4,
      source: 'CV-1.1: D',
    },
    {
      what: '20 to 130 degC',
      actual: () => temperatureFactor(130),
      expected: 1.4323,
      tolerance: 1e-4,
      source: 'CV-1.1: D',
    },
    {
      what: '0.154 ohm/kft from 75 to 120 degC',
      actual: () => (0.154 * temperatureFactor(120)) / FACTOR_75,
      expected: 0.1764,
      source: 'CV-1.2: D on R',
    },
    {
      what: '2.00 ohm from 25 to 130 degC',
      actual: () => (2 * temperatureFactor(130)) / temperatureFactor(25),
      expected: 2.809,
      source: 'CV-3.10: D',
    },
    {
      what: '50 mm2 at 90 degC, ohm/km',
      actual: () => metric(50) * temperatureFactor(90),
      expected: 0.4935,
      source: 'IEC 60228 times CV-1.1, D',
    },
    {
      what: 'copper in 50 mm2',
      actual: () => 17.241 / metric(50),
      expected: 44.6,
      tolerance: 2e-3,
      source: 'trap 0.10: R + D, three digits',
    },
  ]);

  it('takes the stranded 8 AWG, not the solid one (trap 0.1)', () => {
    const hot = (awg(8) * FACTOR_75 * KFT) / 1000;
    expect(Math.abs(hot - 0.778)).toBeLessThan(Math.abs(hot - 0.764));
  });

  it('does not take the nominal area for the copper (trap 0.10)', () => {
    expect(metric(50) / (17.241 / 50)).toBeGreaterThan(1.1);
  });

  it('knows an AWG size from every metric one by its area', () => {
    for (let gauge = -3; gauge <= 56; gauge += 1) expect(isAwgArea(awgArea(gauge))).toBe(true);
    for (const mm2 of Object.keys({ ...table, ...outer })) expect(isAwgArea(Number(mm2) * 1e-6)).toBe(false);
    for (const area of [0, -1e-6, Number.NaN, awgArea(-4), awgArea(1.5)]) expect(isAwgArea(area)).toBe(false);
  });

  it('is NaN for a metric size that the standard lacks', () => {
    for (const mm2 of [0, -16, 5, 33.6, 110, 1200, Number.NaN]) expect(metric(mm2)).toBeNaN();
    expect(standardResistance(0, true)).toBeNaN();
  });
});

describe('voltage drop', () => {
  // 1500 V, 40 A, 2.0 km of 2 AWG at 90 degC: R 1.3075, X 0.230 ohm.
  const motor = [1500, 40, 0.85, 1.3075, 0.23] as const;
  const [v, i, pf, r, x] = motor;
  const s3 = Math.sqrt(3);
  agree([
    {
      what: 'sending voltage',
      actual: () => sendingVoltage(...motor),
      expected: 1585.76,
      tolerance: 0.005 / 1585,
      source: 'CV-2.4: D',
    },
    {
      what: 'approximate drop',
      actual: () => approximateDrop(i, pf, r, x),
      expected: 85.39,
      tolerance: 0.005 / 85,
      source: 'CV-2.4: D',
    },
    {
      what: 'sending voltage, pf 0.90 leading',
      actual: () => sendingVoltage(v, i, 0.9, r, -x),
      expected: 1575.5,
      tolerance: 0.005 / 1575,
      source: 'CV-2.5: D',
    },
    {
      what: 'per-unit z 0.022 + j0.052 at 0.8 lagging',
      actual: () => sendingVoltage(1, 1 / s3, 0.8, 0.022, 0.052),
      expected: 1.0492,
      tolerance: 1e-4,
      source: 'CV-2.8: published solution 1.049, R',
    },
    {
      what: 'NEC example, 1 AWG in aluminium, V',
      actual: () => approximateDrop(100, 0.85, 0.16 * 0.15, 0.057 * 0.15),
      expected: 4.157,
      tolerance: 0.05,
      source: 'CV-2.1: Rp; the table rounds Ze 0.166 to 0.16',
    },
    {
      what: 'Ze of 250 kcmil in steel, ohm/kft',
      actual: () => approximateDrop(1 / s3, 0.85, 0.054, 0.052),
      expected: 0.0733,
      tolerance: 1e-3,
      source: 'CV-2.2, trap 0.3: R',
    },
    {
      what: '16 mm2 by IEC 60364-5-52 annex G, V',
      actual: () => approximateDrop(50, 0.8, (0.0225 * 100) / 16, 0.08e-3 * 100),
      expected: 10.16,
      source: 'CV-2.3: D on M',
    },
    {
      what: 'regulation 15 kVA, 0.8 lagging, %',
      actual: () => (sendingVoltage(230, 65.2 / s3, 0.8, 0.0445, 0.0645) / 230 - 1) * 100,
      expected: 2.11,
      tolerance: 5e-3,
      source: 'CV-2.10: Chapman (M), recomputed',
    },
    {
      what: 'regulation 15 kVA, unity, %',
      actual: () => (sendingVoltage(230, 65.2 / s3, 1, 0.0445, 0.0645) / 230 - 1) * 100,
      expected: 1.28,
      tolerance: 5e-3,
      source: 'CV-2.10: Chapman (M), recomputed',
    },
    {
      what: 'regulation 15 kVA, 0.8 leading, %',
      actual: () => (sendingVoltage(230, 65.2 / s3, 0.8, 0.0445, -0.0645) / 230 - 1) * 100,
      expected: -0.063,
      tolerance: 0.02,
      source: 'CV-2.10: Chapman (M), two digits',
    },
    {
      what: 'regulation 11 kV/415 V, 0.8 lagging, %',
      actual: () => (sendingVoltage(415, 100e3 / (s3 * 415), 0.8, 0.0142, 0.0569) / 415 - 1) * 100,
      expected: 2.664,
      source: 'CV-2.11: Rp',
    },
    {
      what: 'regulation 11 kV/415 V, unity, %',
      actual: () => (sendingVoltage(415, 100e3 / (s3 * 415), 1, 0.0142, 0.0569) / 415 - 1) * 100,
      expected: 0.879,
      source: 'CV-2.11: Rp',
    },
    {
      what: 'regulation ur 1.2 %, uz 6 %, 0.85',
      actual: () => (sendingVoltage(1, 1 / s3, 0.85, 0.012, Math.sqrt(0.06 ** 2 - 0.012 ** 2)) - 1) * 100,
      expected: 4.208,
      source: 'CV-2.12: IEC 60076-8 form, D',
    },
  ]);

  it('weighs resistance with the cosine and reactance with the sine (trap 0.4)', () => {
    expect(approximateDrop(1, 1, 1, 1)).toBeCloseTo(s3, 12);
    expect(approximateDrop(1, 0, 1, 1)).toBeCloseTo(s3, 12);
    expect(approximateDrop(1, 0.8, 0, 1)).toBeCloseTo(0.6 * s3, 12);
  });

  it('comes back to the receiving voltage exactly', () => {
    for (const reactance of [-0.4, 0, 0.23, 3]) {
      expect(receivingVoltage(sendingVoltage(v, i, pf, r, reactance), i, pf, r, reactance)).toBeCloseTo(v, 9);
    }
  });

  it('is NaN when the cable takes more than there is, or for a power factor above 1', () => {
    expect(receivingVoltage(50, 40, 0.85, 1.3075, 0.23)).toBeNaN();
    expect(receivingVoltage(10, 40, 0.2, 1.3075, 0.23)).toBeNaN();
    expect(sendingVoltage(1500, 40, 1.1, 1, 1)).toBeNaN();
  });
});

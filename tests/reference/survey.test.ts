import { describe, expect, it } from 'vitest';
import { doglegSeverity, mdAt, meanDepthFraction, tvdAt } from '../../server/src/engine/values/well/survey.ts';
import { agree } from './row.ts';

// Two stations: 3500 ft at 15 deg towards 20 deg, 3600 ft at 25 deg towards 45 deg.
const published = [
  { md: 3500, inclination: 15, azimuth: 20 },
  { md: 3600, inclination: 25, azimuth: 45 },
];
const example = 'published worked example of minimum curvature (drilling text, public page), R';

/** A build of 90 deg on one circle: the exact depth is the radius times the sine of the angle. */
const RADIUS = 300;
const quarter = [
  { md: 0, inclination: 0 },
  { md: (RADIUS * Math.PI) / 6, inclination: 30 },
  { md: (RADIUS * Math.PI) / 2, inclination: 90 },
];
const circle = 'geometry of a circle, D';

const slant = [
  { md: 0, inclination: 25, azimuth: 10 },
  { md: 2600, inclination: 25, azimuth: 10 },
];
const pairs = [
  { md: 0, tvd: 0 },
  { md: 1000, tvd: 1000 },
  { md: 2000, tvd: 1800 },
];

describe('survey', () => {
  agree([
    {
      what: 'TVD over the interval, ft',
      actual: () => tvdAt(published, 3600) - tvdAt(published, 3500),
      expected: 94.01,
      tolerance: 1e-4,
      source: example,
    },
    {
      what: 'dogleg, deg',
      actual: () => doglegSeverity(published)[1]!.severity * 100,
      expected: 12.95,
      tolerance: 2e-4,
      source: example,
    },
    {
      what: 'dogleg, deg, in full',
      actual: () => doglegSeverity(published)[1]!.severity * 100,
      expected: 12.951651,
      tolerance: 1e-7,
      source: 'second public page with the same inputs, R',
    },
    {
      what: 'TVD of 2600 m at 25 deg',
      actual: () => tvdAt(slant, 2600),
      expected: 2356.4,
      tolerance: 1e-5,
      source: 'CV-4.17: D',
    },
    {
      what: 'TVD at the end of a quarter circle',
      actual: () => tvdAt(quarter, (RADIUS * Math.PI) / 2),
      expected: RADIUS,
      tolerance: 1e-12,
      source: circle,
    },
    {
      what: 'TVD at 60 deg, inside an arc',
      actual: () => tvdAt(quarter, (RADIUS * Math.PI) / 3),
      expected: RADIUS * Math.sin(Math.PI / 3),
      tolerance: 1e-12,
      source: circle,
    },
    {
      what: 'TVD at 12 deg, inside an arc',
      actual: () => tvdAt(quarter, (RADIUS * Math.PI) / 15),
      expected: RADIUS * Math.sin(Math.PI / 15),
      tolerance: 1e-12,
      source: circle,
    },
    {
      what: 'severity of a quarter circle, deg/m',
      actual: () => doglegSeverity(quarter)[0]!.severity,
      expected: 180 / Math.PI / RADIUS,
      tolerance: 1e-12,
      source: circle,
    },
    {
      what: 'MD at the TVD of 60 deg',
      actual: () => mdAt(quarter, RADIUS * Math.sin(Math.PI / 3)),
      expected: (RADIUS * Math.PI) / 3,
      tolerance: 1e-9,
      source: circle,
    },
    {
      what: 'mean depth fraction of a quarter circle',
      actual: () => meanDepthFraction(quarter, (RADIUS * Math.PI) / 2),
      expected: 2 / Math.PI,
      tolerance: 1e-9,
      source: 'mean of a sine, D',
    },
    {
      what: 'mean depth fraction of a slant',
      actual: () => meanDepthFraction(slant, 2000),
      expected: 0.5,
      tolerance: 1e-12,
      source: 'straight hole, D',
    },
    {
      what: 'mean depth fraction of pairs',
      actual: () => meanDepthFraction(pairs, 2000),
      expected: (500 + 1400) / 2 / 1800,
      tolerance: 1e-12,
      source: 'two trapezia, D',
    },
    {
      what: 'TVD between pairs',
      actual: () => tvdAt(pairs, 1250),
      expected: 1200,
      tolerance: 1e-12,
      source: 'linear, D',
    },
    { what: 'MD between pairs', actual: () => mdAt(pairs, 1200), expected: 1250, tolerance: 1e-9, source: 'linear, D' },
  ]);

  it('turns by the shorter way through north', () => {
    const north = [
      { md: 0, inclination: 30, azimuth: 350 },
      { md: 100, inclination: 30, azimuth: 10 },
    ];
    const south = [
      { md: 0, inclination: 30, azimuth: 170 },
      { md: 100, inclination: 30, azimuth: 190 },
    ];
    expect(tvdAt(north, 60)).toBeCloseTo(tvdAt(south, 60), 9);
    expect(doglegSeverity(north)[0]!.severity).toBeCloseTo(0.0995, 3);
  });

  it('starts vertical at the datum where the first station is deeper', () => {
    expect(tvdAt([{ md: 1000, inclination: 0 }], 400)).toBeCloseTo(400, 9);
    expect(tvdAt([{ md: 1000, tvd: 990 }], 500)).toBeCloseTo(495, 9);
  });

  it('is smooth through the change from straight to curved', () => {
    const bent = (degrees: number) => [
      { md: 0, inclination: 40 },
      { md: 30, inclination: 40 + degrees },
    ];
    expect(tvdAt(bent(5.7e-6), 17)).toBeCloseTo(tvdAt(bent(5.8e-6), 17), 6);
  });

  it('is NaN beyond its ends, with stations out of order, or with half of each kind', () => {
    expect(tvdAt(pairs, 2001)).toBeNaN();
    expect(tvdAt(pairs, -1)).toBeNaN();
    expect(mdAt(pairs, 1801)).toBeNaN();
    expect(tvdAt([...pairs].reverse(), 500)).toBeNaN();
    expect(
      tvdAt(
        [
          { md: 0, tvd: 0 },
          { md: 100, inclination: 3 },
        ],
        50,
      ),
    ).toBeNaN();
    expect(tvdAt([], 0)).toBeNaN();
    expect(meanDepthFraction(pairs, 2001)).toBeNaN();
    expect(doglegSeverity(pairs)).toEqual([]);
  });
});

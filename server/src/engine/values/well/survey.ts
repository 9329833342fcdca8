import { integrate } from '../numeric/integrate.ts';
import { bracketedRoot } from '../numeric/roots.ts';

/** One station of a survey: lengths m, angles deg. */
export interface Station {
  /** Along the hole. */
  readonly md: number;
  /** Below the same datum, vertically. */
  readonly tvd?: number | undefined;
  /** From the vertical. */
  readonly inclination?: number | undefined;
  /** From north; where one end of an interval has none, the hole is taken not to turn. */
  readonly azimuth?: number | undefined;
}

/**
 * Stations in order of measured depth. Every one has an inclination (minimum curvature, any `tvd` is then not used), or
 * every one a `tvd` (straight between them). Without a station at 0 the hole starts vertical at the datum.
 */
export type Survey = readonly Station[];

/** How sharply an interval bends. */
export interface Dogleg {
  /** Measured depths of its ends, m. */
  readonly from: number;
  readonly to: number;
  /** deg/m. */
  readonly severity: number;
}

/** An interval: a circular arc, or a straight line if `bend` is 0. */
interface Leg {
  readonly md: number;
  readonly length: number;
  readonly tvd: number;
  /** Cosines of the inclinations at its ends, or of the chord. */
  readonly top: number;
  readonly bottom: number;
  /** Angle between the directions at its ends, rad. */
  readonly bend: number;
}

const DEGREE = Math.PI / 180;
/** An arc that bends less is straight to the last digit of a double, and would divide zero by zero. */
const STRAIGHT = 1e-7;

/** True vertical depth (m) at a measured depth (m). NaN outside the survey, or if it is not as {@link Survey} says. */
export function tvdAt(survey: Survey, md: number): number {
  const leg = legsOf(survey).find((each) => md >= each.md && md <= each.md + each.length);
  return leg ? leg.tvd + descent(leg, md - leg.md) : Number.NaN;
}

/**
 * Measured depth (m) at which a hole first comes to a true vertical depth (m). In an interval that passes the
 * horizontal, only depths between those of its ends are found.
 *
 * @returns NaN if it never does.
 */
export function mdAt(survey: Survey, tvd: number): number {
  for (const leg of legsOf(survey)) {
    const along = bracketedRoot((s) => leg.tvd + descent(leg, s) - tvd, 0, leg.length);
    if (!Number.isNaN(along)) return leg.md + along;
  }
  return Number.NaN;
}

/** Dogleg severity of each interval (deg/m), from the datum down. Empty for a survey without inclinations. */
export function doglegSeverity(survey: Survey): Dogleg[] {
  if (!hasInclinations(survey)) return [];
  return legsOf(survey).map(({ md, length, bend }) => ({
    from: md,
    to: md + length,
    severity: bend / DEGREE / length,
  }));
}

/**
 * Mean of tvd(s)/tvd(md) over the hole from 0 to `md` (m): what weights the temperatures at the ends of a string
 * when the temperature is linear in TVD. 0.5 for a straight hole, above for one that builds angle.
 *
 * @returns NaN outside the survey, and at 0.
 */
export function meanDepthFraction(survey: Survey, md: number): number {
  const area = legsOf(survey)
    .filter((leg) => leg.md < md)
    .reduce((sum, leg) => sum + depthIntegral(leg, Math.min(leg.length, md - leg.md)), 0);
  return area / (md * tvdAt(survey, md));
}

function depthIntegral(leg: Leg, length: number): number {
  // Along a straight leg the depth goes in a straight line: its mean is that of the ends.
  if (leg.bend === 0) return (leg.tvd + descent(leg, length) / 2) * length;
  return integrate((s) => leg.tvd + descent(leg, s), 0, length);
}

/** The survey's intervals; none if the stations are out of order or carry neither kind of data throughout. */
function legsOf(survey: Survey): Leg[] {
  const directional = hasInclinations(survey);
  if (!isOrdered(survey) || !(directional || survey.every((station) => station.tvd !== undefined))) return [];
  const stations = survey[0]!.md > 0 ? [{ md: 0, tvd: 0, inclination: 0 }, ...survey] : survey;
  const legs: Leg[] = [];
  let tvd = directional ? 0 : stations[0]!.tvd!;
  for (const [index, station] of stations.slice(1).entries()) {
    const above = stations[index]!;
    const leg = directional ? arc(above, station, tvd) : chord(above, station);
    tvd = leg.tvd + descent(leg, leg.length);
    legs.push(leg);
  }
  return legs;
}

function hasInclinations(survey: Survey): boolean {
  return survey.every((station) => station.inclination !== undefined);
}

function isOrdered(survey: Survey): boolean {
  return survey.length > 0 && survey.every(({ md }, index) => (index === 0 ? md >= 0 : md > survey[index - 1]!.md));
}

function chord(above: Station, below: Station): Leg {
  const length = below.md - above.md;
  const slope = (below.tvd! - above.tvd!) / length;
  return { md: above.md, length, tvd: above.tvd!, top: slope, bottom: slope, bend: 0 };
}

function arc(above: Station, below: Station, tvd: number): Leg {
  const top = above.inclination! * DEGREE;
  const bottom = below.inclination! * DEGREE;
  const turn = ((below.azimuth ?? Number.NaN) - (above.azimuth ?? Number.NaN)) * DEGREE || 0;
  // The half-angle form keeps its digits at the small angles of a real survey, where an arc cosine loses half of them.
  const haversine = Math.sin((bottom - top) / 2) ** 2 + Math.sin(top) * Math.sin(bottom) * Math.sin(turn / 2) ** 2;
  const bend = 2 * Math.asin(Math.sqrt(haversine));
  return { md: above.md, length: below.md - above.md, tvd, top: Math.cos(top), bottom: Math.cos(bottom), bend };
}

/**
 * Vertical descent (m) over the first `s` metres of an interval, by minimum curvature. On an arc of bend b the
 * direction at the fraction f is [sin((1 - f) b) t1 + sin(f b) t2]/sin b; this is its vertical part integrated, and
 * at f = 1 the usual length/2 (cos I1 + cos I2) tan(b/2)/(b/2). Source: any text on directional surveying; derived
 * here.
 */
function descent(leg: Leg, s: number): number {
  const f = s / leg.length;
  if (leg.bend < STRAIGHT) return s * (leg.top + ((leg.bottom - leg.top) * f) / 2);
  const half = (f * leg.bend) / 2;
  const weights = leg.top * Math.sin(leg.bend - half) + leg.bottom * Math.sin(half);
  return (leg.length * 2 * Math.sin(half) * weights) / (leg.bend * Math.sin(leg.bend));
}

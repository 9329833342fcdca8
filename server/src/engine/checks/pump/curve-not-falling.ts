import { present, ROTARY } from '../../values/conditions.ts';
import { type Row, rows } from '../../values/declare.ts';
import { stageCurve } from '../../values/pump/rotary-curve.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement } from '../declare.ts';

const CURVE = 'equipment.pump.curve';
const POINTS = `${CURVE}.points`;
const COLUMNS = { rate: 'number', head: 'number', power: 'number' } as const;
type Points = readonly Row<typeof COLUMNS>[];

const WATER = 1000;

function pointKey(at: number, column: keyof typeof COLUMNS): string {
  return `${POINTS}[${at}].${column}`;
}

function disordered(context: CheckContext, points: Points): Judgement | undefined {
  const at = points.findIndex(({ rate }, index) => index > 0 && rate <= (points[index - 1]?.rate ?? 0));
  if (at < 0) return undefined;
  const show = (index: number) => context.show(points[index]?.rate ?? 0, 'volume_rate', pointKey(index, 'rate'));
  return {
    key: pointKey(at, 'rate'),
    message: `On the curve of the pump ${show(at)} follows ${show(at - 1)}: the rates must rise from point to point. Look for a slip of a digit.`,
  };
}

function powerless(context: CheckContext, points: Points): Judgement | undefined {
  const at = points.findIndex(({ power }) => power <= 0);
  if (at < 0) return undefined;
  const key = pointKey(at, 'power');
  return {
    key,
    message: `The curve of the pump has a power of ${context.show(points[at]?.power ?? 0, 'power', key)}: a turning pump takes power at every rate. Enter what the data sheet says.`,
  };
}

function rising(context: CheckContext, points: Points): Judgement | undefined {
  const best = stageCurve(points, WATER).bestEfficiencyRate(1);
  const falls = points.findIndex(({ head }, index) => head < (points[index - 1]?.head ?? head));
  const at = points.findIndex(({ rate, head }, index) => {
    const before = points[index - 1];
    if (before === undefined) return false;
    return (falls > 0 && index > falls && head > before.head) || (rate > best && head >= before.head);
  });
  if (at < 0) return undefined;
  const show = (index: number) => context.show(points[index]?.head ?? 0, 'length', pointKey(index, 'head'));
  return {
    key: pointKey(at, 'head'),
    severity: 'warning',
    message: `On the curve of the pump the head goes from ${show(at - 1)} to ${show(at)} where it must fall. Look for a slip of a digit in either of them.`,
  };
}

/** A curve whose last point but one is a slip: 70 m in place of 7.0 m. */
const SLIPPED =
  '{ frequency: 50 Hz, speed: 2900 rpm, density: 1000 kg/m3, points: [ { rate: 0 m3/d, head: 9 m, power: 0.1 kW }, ' +
  '{ rate: 60 m3/d, head: 8.6 m, power: 0.12 kW }, { rate: 120 m3/d, head: 7.2 m, power: 0.15 kW }, ' +
  '{ rate: 120 m3/d, head: 3 m, power: 0.16 kW } ] }';

export const PUMP_CURVE_NOT_FALLING: Check = check({
  id: 'pump.curve-not-falling',
  severity: 'error',
  title: 'points of the pump curve out of order',
  compares:
    'the points of the curve with each other: rates rise, powers are above zero, and the head falls beyond the ' +
    'best point and never rises again once it has fallen',
  why: 'A slip of a digit in one point bends the curve, and the rate that the pump is thought to make with it.',
  mend: 'Compare the points with the data sheet.',
  source:
    'shape of a centrifugal pump’s curve, any text; that a head never rises again is common practice, no source: ' +
    'a few stages for great rates have a saddle',
  example: { lift: 'rotary', fails: { [CURVE]: SLIPPED }, at: pointKey(3, 'rate') },
  when: [ROTARY, present(CURVE)],
  needs: { points: rows(POINTS, COLUMNS) },
  run: ({ points }, context) => disordered(context, points) ?? powerless(context, points) ?? rising(context, points),
});

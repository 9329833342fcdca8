/** A time as people write it on a sheet. */
export interface Moment {
  readonly hasDate: boolean;
  /** Since the first day of the calendar, or since midnight; NaN for a date without a time. */
  readonly minutes: number;
  /** `2026-03-20`; undefined for a time of the day. */
  readonly day: string | undefined;
}

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;
const MOMENT = /^(?:(\d{4}-\d{2}-\d{2})(?:[T ]|$))?(?:(\d{1,2}):(\d{2})(?::\d{2})?(?:Z|[+-]\d{2}:?\d{2})?)?$/;
const MINUTES_A_DAY = 1440;

/** Reads `2026-03-20T09:40`, `2026-03-20` or `09:40`; undefined for anything else. */
export function momentOf(text: string | undefined): Moment | undefined {
  const [whole, day, hours, minutes] = MOMENT.exec(text?.trim() ?? '') ?? [];
  if (whole === undefined || whole === '' || (day !== undefined && dayNumber(day) === undefined)) return undefined;
  if (Number(hours ?? 0) > 24 || Number(minutes ?? 0) > 59) return undefined;
  const time = hours === undefined ? Number.NaN : Number(hours) * 60 + Number(minutes);
  return {
    hasDate: day !== undefined,
    day,
    minutes: (day === undefined ? 0 : (dayNumber(day) ?? 0) * MINUTES_A_DAY) + time,
  };
}

export function isTimed({ minutes }: Moment): boolean {
  return !Number.isNaN(minutes);
}

/** A day of the calendar, counted from a fixed one; undefined for what is none. */
export function dayNumber(text: string): number | undefined {
  const [, year, month, day] = DAY.exec(text) ?? [];
  const time = Date.UTC(Number(year), Number(month) - 1, Number(day));
  const isDay = !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
  return isDay ? time / 86_400_000 : undefined;
}

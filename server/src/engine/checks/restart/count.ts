import { entry, limit, optionalEntry } from '../../values/declare.ts';
import { type Check, check } from '../declare.ts';
import { reaches } from '../reaches.ts';
import { AUTOMATIC, RESTART } from './inputs.ts';

const ATTEMPTS = `${RESTART}.attempts`;
const DELAY = `${RESTART}.delay`;
const WINDOW = `${RESTART}.window`;

export const RESTART_WINDOW_TOO_SHORT: Check = check({
  id: 'restart.window-too-short',
  severity: 'error',
  title: 'window too short for the count of restarts',
  compares: 'the window in which restarts are counted with attempts × delay',
  why: 'The first restart has dropped out of the window before the last one is counted, so the unit is never locked out.',
  mend: 'Enter a window longer than all attempts with their delays take.',
  source: 'logic of counting',
  example: { lift: 'linear', fails: { [WINDOW]: '5 h' }, at: WINDOW },
  when: [AUTOMATIC],
  needs: { attempts: entry(ATTEMPTS), delay: entry(DELAY), window: entry(WINDOW) },
  run: ({ attempts, delay, window }, context) => {
    const least = attempts * delay;
    // So many attempts are a finding of their own.
    if (!Number.isFinite(least)) return { lacks: [ATTEMPTS] };
    if (reaches(window, least)) return { margin: { number: window - least, kind: 'duration' } };
    const show = (duration: number) => context.show(duration, 'duration', WINDOW);
    return {
      key: WINDOW,
      message: `${attempts} attempts after ${context.show(delay, 'duration', DELAY)} each take ${show(least)}, and the window is ${show(window)}: the count never locks the unit out. Enter at least ${show(least)}.`,
      value: { number: window, kind: 'duration' },
      limit: { number: least, kind: 'duration' },
      related: [
        { key: ATTEMPTS, message: 'the attempts' },
        { key: DELAY, message: 'the delay' },
      ],
      fixes: [
        {
          title: `Set the window to ${show(least)}: the unit locks out after ${attempts} attempts`,
          kind: 'offer',
          key: WINDOW,
          newText: show(least),
        },
      ],
    };
  },
});

export const RESTART_UNLIMITED: Check = check({
  id: 'restart.unlimited',
  severity: 'error',
  title: 'automatic restarts without an end',
  compares:
    'the count of automatic restarts and the window that it holds for: an error without them, a warning if many',
  why: 'A unit that starts again and again into the same fault wears out its motor, its cable and its pump.',
  mend: 'Enter attempts and window: three to five attempts are common.',
  source: 'common practice, no source',
  example: { lift: 'linear', fails: { [ATTEMPTS]: null }, at: ATTEMPTS },
  when: [AUTOMATIC],
  needs: { attempts: optionalEntry(ATTEMPTS), window: optionalEntry(WINDOW), most: limit('restart.unlimited') },
  run: ({ attempts, window, most }, context) => {
    const lacking = attempts === undefined ? ATTEMPTS : window === undefined ? WINDOW : undefined;
    // What is written and cannot be read is a finding of its own.
    if (lacking !== undefined && context.text(lacking) !== '') return { lacks: [lacking] };
    if (lacking !== undefined) return { key: lacking, message: endless(lacking) };
    if (attempts === undefined || attempts <= most) return undefined;
    return {
      key: ATTEMPTS,
      severity: 'warning',
      message: `${attempts} automatic restarts within the window are many: more than ${context.show(most, 'count')} wear the unit out on one fault. Enter at most ${context.show(most, 'count')}.`,
      value: { number: attempts, kind: 'count' },
      limit: { number: most, kind: 'count' },
      fixes: [
        {
          title: `Allow ${context.show(most, 'count')} attempts: the unit locks out after that many`,
          kind: 'offer',
          key: ATTEMPTS,
          newText: context.show(most, 'count'),
        },
      ],
    };
  },
});

function endless(lacking: string): string {
  const [what, then] =
    lacking === ATTEMPTS
      ? ["no count of 'attempts'", 'it starts again without an end']
      : ["no 'window' for the count", 'nothing says when the count begins anew'];
  return `The unit restarts by itself with ${what}: ${then}. Three to five attempts within a window are common.`;
}

import { foundInFile } from '../declare.ts';
import { type AcrossCheck, elsewhere, wellsOf } from './declare.ts';

export const RESTART_SAME_AS_NEIGHBOUR: AcrossCheck = {
  check: foundInFile({
    id: 'restart.same-as-neighbour',
    severity: 'note',
    title: 'wells of one pad restart together',
    compares:
      'the delay of the automatic restart after a failure of the supply with that of the other wells of the field and pad',
    why: 'After a failure of the supply all of them start at the same moment, and the dip may fail it again.',
    mend: 'Give each well of a pad a delay of its own, some minutes apart.',
    source: 'common practice, no source',
    example: {
      lift: 'linear',
      fails: {},
      passes: { 'setpoints.restart.delay': '130 min' },
      beside: {
        'neighbour.yaml':
          'document: installation/1\nsite: { field: Testfield, pad: T, well: NEIGHBOUR }\nlift: linear\nequipment: {}\n' +
          'operation: { cases: [] }\nsetpoints: { restart: { mode: automatic, delay: 2 h, after: [undervoltage] } }\n',
      },
      at: 'setpoints.restart.delay',
    },
  }),
  compare: ({ restartDelay, restartLacks }, { sameRestart }) => {
    if (restartLacks.length > 0) return { lacks: restartLacks };
    if (restartDelay === undefined) return 'not-applicable';
    if (sameRestart.count === 0) return [];
    const message = `After a failure of the supply this well restarts together with ${wellsOf(sameRestart)} of its pad. Give each a delay of its own, some minutes apart.`;
    const related = sameRestart.first.flatMap((other) =>
      other.restartDelay === undefined
        ? []
        : [elsewhere(other, other.restartDelay, `the same delay in ${other.well.value}`)],
    );
    return [{ at: restartDelay, message, related }];
  },
};

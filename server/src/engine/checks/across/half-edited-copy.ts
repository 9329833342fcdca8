import type { Copy } from '../../links/fleet.ts';
import type { WellFacts } from '../../links/well-facts.ts';
import { listed } from '../../text/words.ts';
import { foundInFile } from '../declare.ts';
import { type AcrossCheck, elsewhere } from './declare.ts';

const MOST_KEYS = 3;

const SHARED_SETPOINTS =
  '{ transformer: { voltage: 900 V }, drive: { min_frequency: 2.25 Hz, max_frequency: 3.4 Hz, ramp_up: 20 s, ramp_down: 15 s }, ' +
  'protection: { overload: { trip: 15 A, delay: 30 s }, underload: { trip: 4.8 A, delay: 90 s }, ' +
  'earth_fault: { trip: 0.1 Mohm, delay: 1 s }, overvoltage: { trip: 460 V, delay: 5 s } } }';

export const HALF_EDITED_COPY: AcrossCheck = {
  check: foundInFile({
    id: 'identity.half-edited-copy',
    severity: 'warning',
    title: 'copy of another well that was not edited through',
    compares:
      'depths, lengths, serial numbers and the numbers among the setpoints with those of the other installations: most ' +
      'are equal to the digit while the well has another name; site, supply, fluid, reservoir and ratings do not count',
    why: 'A file is mostly begun as a copy. What is not edited afterwards is the setpoint of another well.',
    mend: 'Go through the entries that are equal, and enter what holds for this well.',
    source: 'common practice, no source',
    example: {
      lift: 'linear',
      fails: { setpoints: SHARED_SETPOINTS, 'well.survey': null },
      beside: {
        'neighbour.yaml':
          'document: installation/1\nsite: { well: NEIGHBOUR }\nlift: linear\noperation: { cases: [] }\n' +
          'well: { intake: { md: 1420 m, tvd: 1395 m }, perforations: { md: 1506 m, tvd: 1480 m } }\n' +
          'equipment: { cable: { main: { length: 1432 m }, motor_lead: { length: 12 m } } }\n' +
          `setpoints: ${SHARED_SETPOINTS}\n`,
      },
      at: 'site.well',
    },
  }),
  compare: (own, { copies }) => {
    const [likest] = copies;
    if (likest === undefined) return [];
    const others = listed(copies.map(({ other }) => other.well.written));
    const message =
      `${likest.equal.length} of ${own.comparable.size} depths, lengths, serial numbers and setpoints are those of ` +
      `${others} to the digit, and the well has another name. Go through what was copied, such as ${examples(likest)}.`;
    return [{ at: own.well, message, related: copies.map(({ other }) => related(other)) }];
  },
};

function examples({ equal }: Copy): string {
  return listed([...equal].slice(0, MOST_KEYS).map((key) => `'${key}'`));
}

function related(other: WellFacts) {
  return elsewhere(other, other.well, `most is equal in ${other.well.written}`);
}

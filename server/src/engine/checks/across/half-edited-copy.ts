import type { Copy } from '../../links/fleet.ts';
import type { WellFacts } from '../../links/well-facts.ts';
import { listed } from '../../text/words.ts';
import { foundInFile } from '../declare.ts';
import { type AcrossCheck, elsewhere } from './declare.ts';

const MOST_KEYS = 3;

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

import fc from 'fast-check';
import { type Well, wellText } from './wells.ts';

/** Wells out of few names, numbers and depths, so that most sets hold something equal. */
export const text = fc
  .record({
    well: fc.constantFrom('T-1', 'T-2', 't 1', 'T-3'),
    field: fc.constantFrom('Testfield', 'Other', undefined),
    pad: fc.constantFrom('T', 'U'),
    serials: fc.tuple(fc.constantFrom('P-1', 'P-2', 'TBD'), fc.constantFrom('M-1', 'M-2')),
    depth: fc.constantFrom(1000, 1200),
    current: fc.constantFrom(12, 16),
    restart: fc.constantFrom('{ mode: automatic, delay: 2 h, after: [undervoltage] }', '{ mode: manual }'),
  })
  .map((told: Well) => wellText(1, told));

import { type Check, foundInReading } from '../declare.ts';

/** A fault of the program itself; no document is known that brings it about. */
export const INTERNAL_FAILURE: Check = foundInReading({
  id: 'internal',
  severity: 'error',
  title: 'a check that failed itself',
  compares: 'nothing: a check or a computation met what it was not made for',
  why: 'The check has said nothing of this file; what it would have found stays unknown. All others have run.',
  mend: 'Report it, with the file. It is a fault of Setproof, not of the file.',
  source: 'Setproof itself',
});

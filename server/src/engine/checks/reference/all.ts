import type { Check } from '../declare.ts';
import { BROKEN } from './broken.ts';
import { CIRCULAR } from './circular.ts';
import { NOT_FOUND } from './not-found.ts';
import { OUTSIDE_REPOSITORY } from './outside-repository.ts';
import { WRONG_KIND } from './wrong-kind.ts';

/** References from one document to another. */
export const REFERENCE_CHECKS: readonly Check[] = [BROKEN, CIRCULAR, NOT_FOUND, OUTSIDE_REPOSITORY, WRONG_KIND];

import type { Check } from '../declare.ts';
import { IDENTITY_PATH_MISMATCH } from './path-mismatch.ts';

/** Checks of the identity of one file; those across files stand elsewhere. */
export const IDENTITY_CHECKS: readonly Check[] = [IDENTITY_PATH_MISMATCH];

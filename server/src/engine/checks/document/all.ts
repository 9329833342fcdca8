import type { Check } from '../declare.ts';
import { ALIAS_LIMIT } from './alias-limit.ts';
import { DUPLICATE_KEY } from './duplicate-key.ts';
import { INTERNAL_FAILURE } from './internal.ts';
import { MISSING_KEY } from './missing-key.ts';
import { NOT_RUN } from './not-run.ts';
import { NOT_TEXT } from './not-text.ts';
import { SYNTAX } from './syntax.ts';
import { TOO_LARGE } from './too-large.ts';
import { UNKNOWN_KEY } from './unknown-key.ts';
import { UNMARKED } from './unmarked.ts';
import { UNSUPPORTED_VERSION } from './unsupported-version.ts';
import { WRONG_TYPE } from './wrong-type.ts';

/** How a document is written, as a whole. */
export const DOCUMENT_CHECKS: readonly Check[] = [
  ALIAS_LIMIT,
  DUPLICATE_KEY,
  INTERNAL_FAILURE,
  MISSING_KEY,
  NOT_RUN,
  NOT_TEXT,
  SYNTAX,
  TOO_LARGE,
  UNKNOWN_KEY,
  UNMARKED,
  UNSUPPORTED_VERSION,
  WRONG_TYPE,
];

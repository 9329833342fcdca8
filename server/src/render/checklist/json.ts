import type { Checklist } from '../../engine/index.ts';
import { jsonText } from '../escape.ts';

/** The checklist as JSON, indented, with a line feed at its end; what is not known is left out. */
export function renderChecklistJson(checklist: Checklist): string {
  return `${jsonText(checklist, 2)}\n`;
}

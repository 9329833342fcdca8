import type { Stage } from '../engine/checklist/step.ts';
import { startPage } from './page.ts';

/** What the page carries of its checklist. */
export interface PageData {
  readonly installation: string;
  readonly fingerprint: string;
  readonly well: string;
  readonly stages: readonly Stage[];
}

startPage(JSON.parse(document.getElementById('checklist')?.textContent ?? '') as PageData);

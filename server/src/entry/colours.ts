import pc from 'picocolors';
import type { Paint } from '../render/paint.ts';

const { bold, dim, red, yellow, cyan } = pc.createColors(true);

/** How a terminal is told to set the parts of a text. */
export const colours: Paint = { strong: bold, faint: dim, error: red, warning: yellow, note: cyan };

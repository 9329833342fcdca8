import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { copyField, LINEAR, LOW_TAP, ROTARY } from './field.mjs';

/** Worksheets of the demo field, and the pictures that are taken out of them by the name that they carry there. */
const WORKSHEETS = [
  {
    well: LINEAR,
    drawings: {
      'tap-window.svg': 'Window of the tap',
      'voltage.svg': 'Voltage from drive to motor, target',
      'intake-trip-window.svg': 'Window of the intake-pressure trip',
      'pressure.svg': 'Pressure against depth, target',
      'temperature.svg': 'Temperature against depth, target',
    },
  },
  {
    well: LINEAR,
    edit: LOW_TAP,
    drawings: {
      'tap-window-too-low.svg': 'Window of the tap',
      'voltage-too-low.svg': 'Voltage from drive to motor, target',
    },
  },
  { well: ROTARY, drawings: { 'pump-curve.svg': 'Head of the pump against rate' } },
];

/** @returns the pictures of worksheets, each as a file of its own; equal for equal samples */
export function drawings(root, scratch) {
  return WORKSHEETS.flatMap((worksheet, at) => {
    const field = copyField(root, join(scratch, `field-${at}`), worksheet);
    const page = execFileSync(
      process.execPath,
      [join(root, 'dist/cli.js'), 'worksheet', worksheet.well, '--format', 'html'],
      {
        cwd: field,
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'ignore'],
      },
    );
    return Object.entries(worksheet.drawings).map(([name, title]) => ({
      name,
      content: onPaper(drawingIn(page, title)),
    }));
  });
}

function drawingIn(page, title) {
  const all = page.match(/<svg [\s\S]*?<\/svg>/g) ?? [];
  const found = all.find((each) => each.includes(`<title>${title}</title>`));
  if (found === undefined) throw new Error(`the worksheet has no picture '${title}'`);
  return found;
}

/** In a worksheet a picture takes the colours around it; alone it would be black on a reader's dark page. */
function onPaper(drawing) {
  const [, width, height] = /viewBox="0 0 (\d+) (\d+)"/.exec(drawing);
  return `${drawing
    .replace('<svg ', `<svg width="${width}" height="${height}" color="#1b1b1b" `)
    .replace('</desc>', `</desc><rect width="${width}" height="${height}" fill="#fff" stroke="none"/>`)}\n`;
}

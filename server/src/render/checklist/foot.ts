import { renderSVG } from 'uqr';
import { type Checklist, shortened } from '../../engine/index.ts';
import { revisionText } from './words.ts';

/** A fingerprint as a code that a camera reads, its quiet zone included, as SVG; made once for all its places. */
export function codeSvg(fingerprint: string): string {
  return renderSVG(fingerprint, { ecc: 'M', border: 4, pixelSize: 1 });
}

/** Points along a side of the code at the foot of a page. */
const CODE_SIDE = 46;

/** The code as it stands at the foot of each printed page. */
export function pageCode(svg: string): string {
  return svg.replace('<svg ', `<svg width="${CODE_SIDE}pt" height="${CODE_SIDE}pt" `);
}

const FIRST = 'The maker’s manual, the site’s rules, local codes and licensed practice come first.';
const LONGEST_NAME = 40;

/** What stands at the foot of each printed page of a checklist. */
export function footLines({ well, revision, fingerprint }: Checklist): readonly string[] {
  return [`Well ${shortened(well, LONGEST_NAME)}. ${revisionText(revision)}.`, fingerprint, FIRST];
}

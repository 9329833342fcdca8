import { cssString } from './escape.ts';

export type Paper = 'a4' | 'letter';

/** What stands in the margins of each printed page. */
export interface PrintFrame {
  readonly paper: Paper;
  /** Lines at the foot of the page, left; the page's number stands at the right. */
  readonly foot: readonly string[];
  /** A warning at the head of each page. */
  readonly band: string | undefined;
  /** A picture at the foot of each page, right, as SVG of ours. */
  readonly code?: string | undefined;
}

const SIZES: Readonly<Record<Paper, string>> = { a4: 'A4', letter: 'letter' };

/** Rules that all our documents share: type, tables, and the printed page. Black on white throughout. */
export function pageCss(frame: PrintFrame): string {
  return `${printedPage(frame)}\n${SHARED}`;
}

function printedPage(frame: PrintFrame): string {
  return `@page {
  size: ${SIZES[frame.paper]} portrait;
${marginBoxes(frame)}
}`;
}

/** The margins of a printed page with what stands in them: the band at the head, lines, number and code at the foot. */
export function marginBoxes({ foot, band, code }: Omit<PrintFrame, 'paper'>): string {
  const top = band === undefined ? '13mm' : '20mm';
  const head =
    band === undefined
      ? '@top-center { content: " "; }'
      : `@top-center { content: ${cssString(band)}; font: 700 10pt ${SANS}; border: 1.5pt solid #000; padding: 1.5mm 3mm; margin: 5mm 0 3mm; width: 100%; text-align: center; }`;
  return `  margin: ${top} 13mm ${code === undefined ? 17 : 20}mm 15mm;
  ${head}
  @bottom-left { content: ${foot.map(cssString).join(' "\\A" ')}; white-space: pre; font: 7pt/1.35 ${SANS}; vertical-align: top; padding-top: 2mm; }
  @bottom-right { content: "Page " counter(page) " of " counter(pages)${picture(code)}; font: 8pt ${SANS}; vertical-align: top; padding-top: 2mm; white-space: nowrap; }`;
}

/** The picture travels in the rule itself, so that nothing is loaded. */
function picture(code: string | undefined): string {
  return code === undefined ? '' : ` "  " url("data:image/svg+xml,${encodeURIComponent(code)}")`;
}

const SANS = '"Liberation Sans", Arial, Helvetica, sans-serif';

const SHARED = `* { box-sizing: border-box; }
html { color: #000; background: #fff; }
body { margin: 0 auto; padding: 1rem; max-width: 60rem; font: 10.5pt/1.38 ${SANS}; overflow-wrap: anywhere; }
h1 { font-size: 20pt; line-height: 1.15; margin: 0 0 2mm; }
h2 { font-size: 15pt; line-height: 1.2; margin: 9mm 0 2mm; padding-bottom: 1mm; border-bottom: 1.5pt solid #000; }
h3 { font-size: 11pt; line-height: 1.25; margin: 5mm 0 1.5mm; }
h1, h2, h3, caption { break-after: avoid; }
p, ul, dl { margin: 0 0 2mm; }
ul { padding-left: 5mm; }
table { width: 100%; border-collapse: collapse; }
th, td { border: 0.5pt solid #000; padding: 1.2mm 1.8mm; text-align: left; vertical-align: top; }
thead { display: table-header-group; }
thead th { font-size: 8.5pt; border-bottom-width: 1pt; }
tr, li { break-inside: avoid; }
caption { text-align: left; font-weight: 700; padding: 0 0 1mm; }
code { font-family: "Liberation Mono", "Courier New", monospace; font-size: 0.85em; }
.small { font-size: 8.5pt; line-height: 1.3; }
.number { white-space: nowrap; }
@media print {
  body { max-width: none; padding: 0; }
  a { color: inherit; text-decoration: none; }
}`;

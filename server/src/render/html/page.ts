import { html, type Markup, trusted } from './escape.ts';
import { type PrintFrame, pageCss } from './print-css.ts';

/** A document as one HTML file: no script, nothing loaded from anywhere. */
export interface Page {
  readonly title: string;
  readonly frame: PrintFrame;
  /** Rules of this kind of document, besides those that all share. */
  readonly css: string;
  readonly body: Markup;
}

const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";
/** A picture that stands in the page itself. */
const OWN_PICTURES = '; img-src data:';

/** The whole page as text. */
export function renderPage({ title, frame, css, body }: Page): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(frame.code === undefined ? POLICY : POLICY + OWN_PICTURES)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>
${trusted(pageCss(frame))}
${trusted(css)}
</style>
</head>
<body>
${body}
</body>
</html>
`.text;
}

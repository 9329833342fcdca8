import type { CheckedFile } from '../../engine/index.ts';
import { html, type Markup } from '../../render/html/escape.ts';
import { worksheetMarkup } from '../../render/worksheet/html.ts';
import type { Places } from './places.ts';

export interface PanelContext {
  readonly today: string;
  /** A path as people of this workspace know it. */
  readonly nameOf: (path: string) => string;
  readonly places: Places;
}

/** The worksheet for a panel beside the editor; every entry that a number rests on can be followed. */
export function worksheetPanel(file: CheckedFile, { today, nameOf, places }: PanelContext): Markup {
  return worksheetMarkup(file, {
    today,
    nameOf,
    link: (text, { key, place }) => {
      if (key === '' && place === undefined) return html`${text}`;
      return linkTo(place === undefined ? places.ofKey(key) : places.ofLine(place.path, place.line), html`${text}`);
    },
  });
}

/** An element that the panel's script turns into a way to the editor. */
export function linkTo(place: number, content: Markup): Markup {
  return html`<a href="#" data-place="${place}">${content}</a>`;
}

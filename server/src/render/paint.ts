type Stroke = (text: string) => string;

/** How the parts of a text for a terminal are marked; what it costs to do so is up to whoever passes one. */
export interface Paint {
  readonly strong: Stroke;
  readonly faint: Stroke;
  readonly error: Stroke;
  readonly warning: Stroke;
  readonly note: Stroke;
}

const asIs: Stroke = (text) => text;

export const PLAIN: Paint = { strong: asIs, faint: asIs, error: asIs, warning: asIs, note: asIs };

import { formatMeasure, kindNamed, type LimitDeclaration } from '../engine/index.ts';

/** The default of a limit as a reader writes it: in the first usual unit of its kind. */
export function limitText({ number, kind }: Pick<LimitDeclaration, 'number' | 'kind'>): string {
  const known = kindNamed(kind);
  return known === undefined ? String(number) : formatMeasure(number, known, known.usual[0] ?? '');
}

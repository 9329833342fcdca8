import { atmosphereAt } from '../../links/atmosphere.ts';
import { declareValue, entryOr, type ValueDeclaration } from '../declare.ts';

export const AIR: readonly ValueDeclaration[] = [
  declareValue({
    id: 'site.atmosphere',
    title: 'pressure of the surrounding air',
    kind: 'pressure',
    formula: '101325·(1 − 2.25577e-5·h)^5.25588',
    source: 'ISO 2533 standard atmosphere (from memory)',
    inputs: { elevation: entryOr('site.elevation', 0, 'sea level where no elevation is entered: 101 325 Pa') },
    compute: ({ elevation }) => atmosphereAt(elevation),
  }),
];

import { declareValue, entry, type ValueDeclaration, value } from '../declare.ts';

const PLAIN = 'definition; a test for wrong units, not a property of the rock';

export const GRADIENTS: readonly ValueDeclaration[] = [
  declareValue({
    id: 'reservoir.pressure_gradient',
    title: 'reservoir pressure over depth',
    kind: 'pressure_gradient',
    formula: '(p_r − p_air)/tvd_perf',
    source: PLAIN,
    inputs: {
      pressure: entry('reservoir.pressure'),
      air: value('site.atmosphere'),
      depth: value('well.perforation_tvd'),
    },
    compute: ({ pressure, air, depth }) => (pressure - air) / depth,
  }),
  declareValue({
    id: 'reservoir.temperature_gradient',
    title: 'rise of temperature with depth',
    kind: 'temperature_gradient',
    formula: '(T_res − T_surface)/tvd_perf',
    source: PLAIN,
    inputs: {
      temperature: entry('reservoir.temperature'),
      surface: entry('well.surface_temperature'),
      depth: value('well.perforation_tvd'),
    },
    compute: ({ temperature, surface, depth }) => (temperature - surface) / depth,
  }),
];

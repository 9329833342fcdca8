// Which tests watch over a file: the narrowest that should notice a change, so that a run does not take days.

const VALUES = ['tests/reference', 'tests/engine/values', 'tests/engine/windows', 'tests/checks', 'tests/repositories'];

export function testsFor(path) {
  return path.includes('/quantity/') ? ['tests/reference/units.test.ts', 'tests/engine/quantity'] : VALUES;
}

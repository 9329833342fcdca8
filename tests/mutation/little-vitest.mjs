// Stands in for Vitest where one test file is run thousands of times in one process: it only collects the tests, in
// `globalThis.$collected`; quick.mjs runs them. Matchers are Vitest's own.
const { expect, collected } = globalThis.$vitest;
const path = [];

export { expect };

export const describe = withRows((name, body) => {
  path.push(name);
  body();
  path.pop();
});

function collect(name, ...rest) {
  const run = rest.find((each) => typeof each === 'function');
  collected.tests.push({ name: [...path, name].join(' › '), run });
}

export const it = withRows(collect);
export const test = withRows((...each) => collect(...each));

export function beforeAll(run) {
  collected.before.push(run);
}

export function afterAll(run) {
  collected.after.push(run);
}

function withRows(declare) {
  const left = () => undefined;
  return Object.assign(declare, {
    each: (rows) => (name, run) => {
      for (const [at, row] of rows.entries()) {
        const cells = Array.isArray(row) ? row : [row];
        declare(`${name} (${at + 1})`, () => run(...cells));
      }
    },
    runIf: (condition) => (condition ? declare : left),
    skipIf: (condition) => (condition ? left : declare),
  });
}

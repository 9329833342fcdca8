// A few lines instead of a test framework: the suite runs in the extension host, of Node and of the browser alike.

interface Test {
  readonly name: string;
  readonly run: () => Promise<void>;
}

const tests: Test[] = [];
/** Only what fails takes so long, and a machine may be busy with others. */
const PATIENCE = 60_000;

export function test(name: string, run: () => Promise<void>): void {
  tests.push({ name, run });
}

/** Runs all tests; the last line says that the suite was really finished. */
export async function runAll(): Promise<void> {
  let failed = 0;
  for (const { name, run } of tests) {
    try {
      await run();
      console.log(`  ✓ ${name}`);
    } catch (error) {
      failed++;
      console.log(`  ✗ ${name}: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  console.log(`SUITE-DONE passed=${tests.length - failed} failed=${failed}`);
  if (failed > 0) throw new Error(`${failed} failed`);
}

/** Waits until something comes to be; the host has its own pace. */
export async function eventually<T>(what: string, look: () => T | undefined | Promise<T | undefined>): Promise<T> {
  const until = Date.now() + PATIENCE;
  for (;;) {
    const found = await look();
    if (found !== undefined && found !== false) return found;
    if (Date.now() > until) throw new Error(`waited in vain for ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

export function equal(actual: unknown, expected: unknown, what: string): void {
  const [a, b] = [JSON.stringify(actual), JSON.stringify(expected)];
  if (a !== b) throw new Error(`${what}: ${a} instead of ${b}`);
}

export function isTrue(fact: boolean, what: string): void {
  if (!fact) throw new Error(what);
}

import { atLeast, type CheckedFile, type CheckStatus, type Finding, type Severity } from '../../engine/index.ts';
import { type Accepted, isOpen, type Report } from '../report.ts';
import { escapeXml, xmlLines } from './escape.ts';

export interface JUnitOptions {
  readonly nameOf: (path: string) => string;
  /** Findings from this severity on are failures; the others are told in the output of their test. */
  readonly failOn: Severity;
}

/** One test of a suite, written out. */
interface TestCase {
  readonly text: string;
  readonly outcome: 'passed' | 'failed' | 'skipped';
}

/**
 * The checks in the XML that test reports of build services are kept in: a suite for each file, in it a test for each
 * check that concerns the file, and one for each finding. What was not run is skipped, with what it lacks.
 */
export function junitReport(options: JUnitOptions): Report {
  return {
    begin: () => '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="setproof">\n',
    file: (file, accepted) => suiteOf(file, accepted, options),
    next: (piece) => piece,
    end: () => '</testsuites>\n',
  };
}

function suiteOf(file: CheckedFile, accepted: Accepted, options: JUnitOptions): string {
  const name = options.nameOf(file.document.path);
  const cases = [
    ...file.findings.map((finding) => findingCase(finding, accepted, name, options)),
    ...[...file.statuses].flatMap(([check, status]) => statusCase(check, status, name) ?? []),
  ];
  const count = (outcome: TestCase['outcome']) => cases.filter((each) => each.outcome === outcome).length;
  const counts = `tests="${cases.length}" failures="${count('failed')}" errors="0" skipped="${count('skipped')}"`;
  const texts = cases.map(({ text }) => `    ${text}\n`).join('');
  return `  <testsuite name="${escapeXml(name)}" ${counts}>\n${texts}  </testsuite>\n`;
}

function findingCase(finding: Finding, accepted: Accepted, name: string, options: JUnitOptions): TestCase {
  const { check, key, case: inCase, severity, message } = finding;
  const where = [key === '' ? '' : ` at ${key}`, inCase === undefined ? '' : ` in the case '${inCase}'`].join('');
  const opening = openingOf(`${check}${where}`, name);
  const text = xmlLines(linesOf(finding, name));
  if (!isOpen(finding, accepted)) {
    const why = finding.deviated ? 'accepted by a deviation' : 'accepted for now';
    return {
      text: `${opening}><skipped message="${escapeXml(`${why}: ${message}`)}"/></testcase>`,
      outcome: 'skipped',
    };
  }
  if (!atLeast(severity, options.failOn)) {
    return { text: `${opening}><system-out>${text}</system-out></testcase>`, outcome: 'passed' };
  }
  const failure = `<failure type="${severity}" message="${escapeXml(message)}">${text}</failure>`;
  return { text: `${opening}>${failure}</testcase>`, outcome: 'failed' };
}

function linesOf({ severity, message, fixes, range, check }: Finding, name: string): readonly string[] {
  const wayOut = fixes.map(({ title }) => title).join('; or: ');
  const place = `${name}:${range.start.line + 1}:${range.start.character + 1}`;
  return [`${severity}: ${message}`, ...(wayOut === '' ? [] : [`Way out: ${wayOut}.`]), `${check}, ${place}`];
}

/** Findings have tests of their own, and what does not apply has none. */
function statusCase(check: string, status: CheckStatus, name: string): TestCase | undefined {
  const opening = openingOf(check, name);
  const skipped = (why: string): TestCase => ({
    text: `${opening}><skipped message="${escapeXml(why)}"/></testcase>`,
    outcome: 'skipped',
  });
  switch (status.status) {
    case 'passed':
      return { text: `${opening}/>`, outcome: 'passed' };
    case 'not_run':
      return skipped(`not run: lacks ${status.missing.join(', ')}`);
    case 'set_aside':
      return skipped(`set aside: ${status.reason}`);
    default:
      return undefined;
  }
}

function openingOf(test: string, name: string): string {
  return `<testcase name="${escapeXml(test)}" classname="${escapeXml(name)}"`;
}

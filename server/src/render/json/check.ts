import type { CheckedFile, CheckStatus, Finding, Measure, Related } from '../../engine/index.ts';
import { jsonText } from '../escape.ts';
import type { Accepted, Report } from '../report.ts';

/** `check --format json`, file by file, with the summary last; its schema is schemas/check-output.schema.json. */
export function checkJsonReport(nameOf: (path: string) => string): Report {
  let separator = '\n';
  return {
    begin: () => '{ "setproof": 1,\n  "files": [',
    file: (file, accepted) => jsonText(fileObject(file, accepted, nameOf)),
    next: (piece) => {
      const text = `${separator}    ${piece}`;
      separator = ',\n';
      return text;
    },
    end: ({ summary, settled }) => `\n  ],\n  "settled": ${jsonText(settled)},\n  "summary": ${jsonText(summary)} }\n`,
  };
}

function fileObject(
  { document, fingerprint, findings, statuses }: CheckedFile,
  accepted: Accepted,
  nameOf: (path: string) => string,
) {
  return {
    path: nameOf(document.path),
    // What stands there may be anything; only a kind with a version is told on.
    document: /^[a-z]+\/[0-9]+$/.test(document.label) ? document.label : 'unknown/0',
    fingerprint: fingerprint(),
    findings: findings.map((finding) => findingObject(finding, accepted.has(finding), nameOf)),
    checks: checksObject(statuses),
  };
}

function findingObject(finding: Finding, accepted: boolean, nameOf: (path: string) => string) {
  return {
    check: finding.check,
    severity: finding.severity,
    message: finding.message,
    key: finding.key,
    range: finding.range,
    case: finding.case,
    value: measured(finding.value),
    limit: measured(finding.limit),
    related: finding.related.map((related) => relatedObject(related, nameOf)),
    fixes: finding.fixes.map(({ title }) => title),
    deviated: finding.deviated || undefined,
    accepted: accepted || undefined,
  };
}

function relatedObject({ path, key, range, message }: Related, nameOf: (path: string) => string) {
  return { path: nameOf(path), key, range, message };
}

/** JSON has no way to write what is no number, such as a wire gauge of `2/0`. */
function measured(measure: Measure | undefined): Measure | undefined {
  return measure === undefined || !Number.isFinite(measure.number) ? undefined : measure;
}

function checksObject(statuses: ReadonlyMap<string, CheckStatus>) {
  const passed: unknown[] = [];
  const notApplicable: string[] = [];
  const notRun: unknown[] = [];
  const deviated: unknown[] = [];
  const setAside: unknown[] = [];
  for (const [check, status] of statuses) {
    if (status.status === 'passed') passed.push(passedObject(check, measured(status.margin)));
    else if (status.status === 'not_applicable') notApplicable.push(check);
    else if (status.status === 'not_run') notRun.push({ check, missing: status.missing });
    else if (status.status === 'deviated') deviated.push({ check, reason: status.reason, until: status.until });
    else if (status.status === 'set_aside') setAside.push({ check, reason: status.reason });
  }
  return { passed, notApplicable, notRun, deviated, setAside };
}

function passedObject(check: string, margin: Measure | undefined) {
  return margin === undefined ? check : { check, margin };
}

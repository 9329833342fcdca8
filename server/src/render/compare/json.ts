import type { Comparison, ValueChange } from '../../engine/index.ts';
import { jsonText } from '../escape.ts';
import { type CompareReport, pathOf } from './report.ts';
import { summaryOf, totalsOf } from './words.ts';

/**
 * `compare --format json`: every change, numbers in internal units and as written; its schema is
 * schemas/compare-output.schema.json.
 */
export function comparisonJson(report: CompareReport): string {
  const { fleet, before, after, today } = report;
  const output = {
    setproof: 1,
    ...{ before, after, today },
    summary: totalsOf(report),
    total: fleet.total,
    documents: fleet.documents.map((comparison) => documentObject(comparison, report)),
  };
  return `${jsonText(output, 2)}\n`;
}

function documentObject(comparison: Comparison, report: CompareReport) {
  const { nameOf, fleet } = report;
  const { before, after, values, sheets, policy, copyOf, kind, ...rest } = comparison;
  const named = <T extends { readonly path: string }>(side: T | undefined) =>
    side && { ...side, path: nameOf(side.path) };
  return {
    path: nameOf(pathOf(comparison)),
    kind: kind ?? null,
    ...rest,
    before: named(before),
    after: named(after),
    summary: summaryOf(comparison, report),
    values: values.map(valueObject),
    sheets: sheets.map((sheet) => ({ ...sheet, before: named(sheet.before), after: named(sheet.after) })),
    policy: policy && {
      ...policy,
      before: policy.before && nameOf(policy.before),
      after: policy.after && nameOf(policy.after),
    },
    copyOf: named(copyOf),
    users: fleet.users.get(pathOf(comparison))?.map((user) => named(user)),
  };
}

/** JSON has no infinity: where one side has no number there is no share. */
function valueObject({ relative, ...value }: ValueChange) {
  return { ...value, relative: Number.isFinite(relative) ? relative : undefined };
}

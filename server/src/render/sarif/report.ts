import type { Check, CheckedFile } from '../../engine/index.ts';
import { jsonText } from '../escape.ts';
import type { Accepted, Report, Run } from '../report.ts';
import { notificationsOf } from './notifications.ts';
import { resultsOf } from './results.ts';
import { ruleOf } from './rules.ts';
import type { SarifContext } from './shared.ts';

const SCHEMA = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json';

export interface SarifOptions {
  /** A path relative to the folder that the report is read from, with `/`. */
  readonly nameOf: (path: string) => string;
  readonly catalogue: readonly Check[];
  /** Version of the program; it is not said if it is not known. */
  readonly version?: string | undefined;
}

/**
 * Findings in the Static Analysis Results Interchange Format 2.1.0 of OASIS, with every check of the catalogue as a
 * rule, so that what was looked for can be told from what was found.
 */
export function sarifReport({ nameOf, catalogue, version }: SarifOptions): Report {
  const context: SarifContext = { nameOf, ruleIndex: new Map(catalogue.map(({ id }, index) => [id, index])) };
  const driver = { name: 'Setproof', version, rules: catalogue.map(ruleOf) };
  let separator = '\n';
  return {
    begin: () =>
      `{ "$schema": ${jsonText(SCHEMA)}, "version": "2.1.0", "runs": [ {\n` +
      `  "columnKind": "utf16CodeUnits",\n  "tool": { "driver": ${jsonText(driver)} },\n  "results": [`,
    file: (file, accepted) => pieceOf(file, accepted, context),
    next: (piece) => {
      if (piece === '') return '';
      const text = separator + piece;
      separator = ',\n';
      return text;
    },
    end: (run) => `\n  ],\n  "invocations": [ ${jsonText(invocation(run, context))} ]\n} ] }\n`,
  };
}

function pieceOf(file: CheckedFile, accepted: Accepted, context: SarifContext): string {
  return resultsOf(file, accepted, context)
    .map((result) => `    ${jsonText(result)}`)
    .join(',\n');
}

function invocation(run: Run, context: SarifContext) {
  return {
    executionSuccessful: run.troubles.length === 0,
    toolExecutionNotifications: notificationsOf(run, context),
  };
}

import {
  type CodeDescription,
  type Diagnostic,
  type DiagnosticRelatedInformation,
  DiagnosticSeverity,
  DiagnosticTag,
} from 'vscode-languageserver';
import type { Finding, Severity } from '../engine/index.ts';
import { visible } from '../render/escape.ts';

/** What a diagnostic needs beside the finding: how files are named, and where the checks are explained. */
export interface DiagnosticNames {
  readonly uriOf: (path: string) => string;
  readonly checkPages: string | undefined;
  /** Whether the client shows related places; else they are left out. */
  readonly related: boolean;
}

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  note: DiagnosticSeverity.Information,
};

export const SOURCE = 'setproof';

/** Checks whose finding is that an entry serves nothing; editors show it faded. */
const UNNECESSARY: ReadonlySet<string> = new Set(['deviation.not-needed', 'drive.settings-without-drive']);

/** A finding as editors show it. One that a deviation accepts stays in sight, as a hint. */
export function toDiagnostic(finding: Finding, names: DiagnosticNames): Diagnostic {
  const page = pageOf(finding.check, names.checkPages);
  return {
    range: finding.range,
    severity: finding.deviated ? DiagnosticSeverity.Hint : SEVERITIES[finding.severity],
    code: finding.check,
    ...(page && { codeDescription: page }),
    source: SOURCE,
    message: visible(finding.deviated ? `Accepted by a deviation: ${finding.message}` : finding.message),
    ...(UNNECESSARY.has(finding.check) && { tags: [DiagnosticTag.Unnecessary] }),
    ...(names.related && finding.related.length > 0 && { relatedInformation: relatedOf(finding, names) }),
  };
}

function relatedOf({ related }: Finding, { uriOf }: DiagnosticNames): DiagnosticRelatedInformation[] {
  return related.map(({ path, range, message }) => ({
    location: { uri: uriOf(path), range },
    message: visible(message),
  }));
}

function pageOf(check: string, folder: string | undefined): CodeDescription | undefined {
  return folder === undefined ? undefined : { href: `${folder.replace(/\/$/, '')}/${check}.md` };
}

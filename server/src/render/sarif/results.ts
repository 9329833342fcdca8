import type { CheckedFile, Finding, Fix, Measure, Related } from '../../engine/index.ts';
import { visible } from '../escape.ts';
import type { Accepted } from '../report.ts';
import { artifactOf, messageOf, regionOf, regionOfSpan, type SarifContext } from './shared.ts';

/** The findings of one file, those that somebody accepts as suppressed ones. */
export function resultsOf(file: CheckedFile, accepted: Accepted, context: SarifContext): readonly object[] {
  const identities = new Map<string, number>();
  return file.findings.map((finding) => {
    const identity = identityOf(finding);
    const before = identities.get(identity) ?? 0;
    identities.set(identity, before + 1);
    const named = before === 0 ? identity : `${identity} ${before + 1}`;
    return resultOf(finding, named, suppressionsOf(finding, file, accepted), file, context);
  });
}

/** What a finding is known by from one revision to the next: lines and numbers may move, check, entry and case do not. */
function identityOf({ check, key, case: inCase }: Finding): string {
  return visible([check, key, inCase ?? ''].join(' ').trimEnd());
}

function resultOf(
  finding: Finding,
  identity: string,
  suppressions: readonly object[],
  { document }: CheckedFile,
  context: SarifContext,
) {
  const { check, severity, message, key, path, range, related, fixes } = finding;
  return {
    ruleId: check,
    ruleIndex: context.ruleIndex.get(check),
    level: severity,
    message: messageOf(message),
    locations: [{ ...placeOf(path, range, context), logicalLocations: logicalOf(key) }],
    relatedLocations: related.length === 0 ? undefined : related.map((each, id) => relatedOf(each, id, context)),
    partialFingerprints: { 'setproof/v1': identity },
    fixes: fixes.length === 0 ? undefined : fixesOf(fixes, document, context),
    suppressions: suppressions.length === 0 ? undefined : suppressions,
    properties: propertiesOf(finding),
  };
}

function placeOf(path: string, range: Finding['range'], context: SarifContext) {
  return { physicalLocation: { artifactLocation: artifactOf(path, context), region: regionOf(range) } };
}

function logicalOf(key: string) {
  return key === '' ? undefined : [{ fullyQualifiedName: visible(key), kind: 'member' }];
}

function relatedOf({ path, range, message }: Related, id: number, context: SarifContext) {
  return { id, ...placeOf(path, range, context), message: messageOf(message) };
}

function suppressionsOf(finding: Finding, { statuses }: CheckedFile, accepted: Accepted): readonly object[] {
  if (finding.deviated) {
    const status = statuses.get(finding.check);
    const justification =
      status?.status === 'deviated'
        ? `A deviation in the file, until ${status.until}: ${status.reason}`
        : 'A deviation in the file, with its reason, accepts it.';
    return [{ kind: 'inSource', status: 'accepted', justification: visible(justification) }];
  }
  if (!accepted.has(finding)) return [];
  return [
    { kind: 'external', status: 'accepted', justification: 'The list of findings that are accepted for now has it.' },
  ];
}

function fixesOf(fixes: readonly Fix[], document: CheckedFile['document'], context: SarifContext) {
  const described = fixes.filter(({ edits }) => edits.length > 0);
  if (described.length === 0) return undefined;
  return described.map(({ title, edits }) => ({
    description: messageOf(title),
    artifactChanges: [...new Set(edits.map(({ path }) => path))].map((path) => ({
      artifactLocation: artifactOf(path, context),
      replacements: edits
        .filter((edit) => edit.path === path)
        .map(({ span, newText }) => ({
          deletedRegion: regionOfSpan(span, path === document.path ? document.source : undefined),
          insertedContent: { text: newText },
        })),
    })),
  }));
}

function propertiesOf({ key, case: inCase, value, limit }: Finding) {
  return { key: visible(key), case: inCase && visible(inCase), value: measured(value), limit: measured(limit) };
}

/** JSON has no way to write what is no number. */
function measured(measure: Measure | undefined): Measure | undefined {
  return measure === undefined || !Number.isFinite(measure.number) ? undefined : measure;
}

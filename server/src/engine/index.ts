/** The only door to the engine. */
export { type CheckedFile, INTERNAL, type Worked } from './check-document.ts';
export { buildChecklist, type Checklist, type ChecklistOptions } from './checklist/checklist.ts';
export {
  type Entries,
  type Entry,
  type Progress,
  progressOf,
  shutBy,
} from './checklist/entry.ts';
export {
  type FieldPart,
  FORM_FIELDS,
  type FormField,
  formFieldName,
  formFieldsOf,
  partOfFormField,
} from './checklist/form-fields.ts';
export { type Judgement, judgeStep, type Verdict } from './checklist/judge.ts';
export { UNIT_CHOICES, type UnitChoice } from './checklist/notation.ts';
export type { DeviationLine, FigureLine, FindingLine, Overview } from './checklist/overview.ts';
export { kindOfUnit, type ReadNumber, readNumber, withUnit } from './checklist/reading-number.ts';
export { type Readable, type ReadReadings, readingsText, readReadings } from './checklist/readings-document.ts';
export type { Stage, StageId, Step, StepKind, StepLimit } from './checklist/step.ts';
export { CATALOGUE } from './checks/catalogue.ts';
export { CheckContext } from './checks/context.ts';
export type { Check } from './checks/declare.ts';
export { NETWORK } from './checks/engine.ts';
export { type FindingChange, type FindingSide, type StatusChange, titleOfCheck } from './compare/checks.ts';
export { type Comparison, compareFiles, type DocumentSide } from './compare/comparison.ts';
export type { Copy } from './compare/copies.ts';
export type { DeviationChange, DeviationSide } from './compare/deviations.ts';
export type { EntryChange } from './compare/entries.ts';
export { compareFleets, type FleetComparison, type FleetSide, type SheetUser } from './compare/fleet.ts';
export type { BoundChange, BoundSide, WindowChange, WindowSide } from './compare/margins.ts';
export type { Difference, Measured } from './compare/measured.ts';
export type { PolicyChange } from './compare/policy.ts';
export type { SheetChange, SheetSide } from './compare/sheets.ts';
export type { ValueChange } from './compare/values.ts';
export { type DeviationState, deviationsOf, type ListedDeviation } from './deviation-list.ts';
export { type Counts, countEnded, countFindings, countsOf } from './findings/counts.ts';
export type { CheckStatus, Finding, Fix, Measure, Related, Severity } from './findings/finding.ts';
export { atLeast, compareText } from './findings/gate.ts';
export { POLICY_FILE, type Policy, readPolicy } from './findings/policy.ts';
export type { CheckTexts, Example } from './findings/texts.ts';
export { beginning, nearest } from './format/distance.ts';
export type { Document } from './format/document.ts';
export { SHAPES, VERSIONS } from './format/generated/shapes.ts';
export { readDocument } from './format/read.ts';
export type { DocumentKind, Shape } from './format/shape.ts';
export type { Neighbours } from './links/fleet.ts';
export { keysOf } from './links/fleet.ts';
export { type FleetLedger, LedgerReader, LedgerWriter } from './links/ledger.ts';
export { folderOf, foldersUp, isInside, resolvePath } from './links/paths.ts';
export { policyHash } from './links/policy-hash.ts';
export { type Reference, referencesOf } from './links/references.ts';
export { type WellFacts, wellFactsOf } from './links/well-facts.ts';
export type { OpenSetpoint } from './proposal/open.ts';
export { type ProposedEntry, proposalEdits } from './proposal/proposals.ts';
export { type Proposal, propose } from './proposal/propose.ts';
export { convertText, toUnit } from './quantity/convert.ts';
export { formatMeasure, formatNumber } from './quantity/format.ts';
export { fittingUnits, KINDS, kindNamed } from './quantity/kinds.ts';
export { sameDimension } from './quantity/symbols.ts';
export type { Quantity } from './quantity/types.ts';
export { UNIT_TABLE, type UnitRow } from './quantity/unit-table.ts';
export { findUnit } from './quantity/units.ts';
export { type BroughtBack, bringBack, type FormFields } from './readings/bring-back.ts';
export {
  type AnswerLine,
  type AnswerStage,
  buildHandover,
  type DeviatingLine,
  type Handover,
  type RemarkLine,
  type SettingLine,
} from './readings/handover.ts';
export { type Saved, savedIn } from './readings/saved.ts';
export { type Change, type Known, Repository, type RepositoryOptions } from './repository.ts';
export { NONE, type NodeIndex, stepsOf } from './syntax/tree.ts';
export { SourceText } from './text/source.ts';
export type { Position, Range, Span } from './text/span.ts';
export { capitalise, shortened, withArticle } from './text/words.ts';
export { quoted } from './text/yaml.ts';
export { tidy } from './tidy/tidy.ts';
export type { Source } from './values/declare.ts';
export type { Evaluation } from './values/evaluation.ts';
export { State } from './values/evaluation.ts';
export { bindingLimit, type ExplainedInput, explainInputs } from './values/explain.ts';
export { HANDBOOK } from './values/handbook.ts';
export { LIMITS, type LimitDeclaration } from './values/limits.ts';
export { missingEntries } from './values/missing.ts';
export type { NetworkNode } from './values/network.ts';
export { GRAVITY } from './values/physics.ts';
export { type RotaryLines, rotaryLines } from './values/pump/rotary-lines.ts';
export { WINDOWS } from './windows/all.ts';
export type { Bound, Window, WindowEnds } from './windows/declare.ts';
export { type BoundReading, insideBy, type WindowReading } from './windows/reading.ts';
export { platedTaps } from './windows/tap.ts';

import { countEnded, countFindings } from '../findings/counts.ts';
import { readDeviations } from '../findings/deviations.ts';
import type { Severity } from '../findings/finding.ts';
import type { Facts } from './facts.ts';
import { shown } from './notation.ts';

/** A finding as the cover shows it. */
export interface FindingLine {
  readonly severity: Severity;
  readonly check: string;
  readonly message: string;
  readonly key: string;
  readonly case: string | undefined;
}

/** A finding that somebody accepts. */
export interface DeviationLine extends FindingLine {
  readonly reason: string;
  readonly until: string;
  readonly approvedBy: string;
}

/** A computed number, for the whole file or case by case. */
export interface FigureLine {
  readonly title: string;
  /** As text with its unit; one for the file, or one a case, a dash where it does not apply or is not known. */
  readonly values: readonly string[];
}

/** What the cover says besides its steps. */
export interface Overview {
  readonly counts: {
    readonly errors: number;
    readonly warnings: number;
    readonly notes: number;
    readonly deviated: number;
    readonly passed: number;
    readonly notRun: number;
    readonly setAside: number;
  };
  readonly findings: readonly FindingLine[];
  readonly deviations: readonly DeviationLine[];
  readonly notRun: readonly { readonly check: string; readonly missing: readonly string[] }[];
  readonly setAside: readonly { readonly check: string; readonly reason: string }[];
  /** Computed numbers of the whole file, then those of each case. */
  readonly figures: readonly FigureLine[];
  readonly cases: readonly string[];
  readonly caseFigures: readonly FigureLine[];
}

const FILE_FIGURES: readonly (readonly [title: string, id: string])[] = [
  ['Most that the well gives', 'inflow.max_rate'],
  ['Temperature at the intake', 'intake.temperature'],
  ['Cable left over', 'cable.length_margin'],
  ['Least tap voltage that serves', 'transformer.tap_min'],
  ['Greatest tap voltage allowed', 'transformer.tap_max'],
  ['Time to fill the tubing', 'start.fill_time'],
  ['Time to refill the annulus', 'restart.refill_time'],
  ['Heaviest lift', 'handling.lift_mass'],
  ['Least clearance in the casing', 'fit.clearance'],
];
const CASE_FIGURES: readonly (readonly [title: string, id: string])[] = [
  ['Intake pressure', 'intake.pressure'],
  ['Rate at surface', 'pump.surface_rate'],
  ['Frequency', 'motor.frequency'],
  ['Motor current', 'motor.current'],
  ['Load of the motor', 'motor.load'],
  ['Winding temperature', 'motor.winding_temperature'],
  ['Voltage at the top of the cable', 'surface.required_voltage'],
  ['Drive output voltage', 'drive.output_voltage'],
  ['Drive output current', 'drive.output_current'],
];
const ENTRIES: readonly (readonly [title: string, key: string])[] = [
  ['Lift', 'lift'],
  ['Intake, measured depth', 'well.intake.md'],
  ['Intake, vertical depth', 'well.intake.tvd'],
  ['Target rate', 'operation.target_rate'],
  ['Transformer tap', 'setpoints.transformer.tap'],
  ['Voltage of the tap', 'setpoints.transformer.voltage'],
];

/** Counts, open points and the chief numbers of an installation. */
export function overviewOf(facts: Facts): Overview {
  const { findings, statuses } = facts.file;
  const open = findings.filter(({ deviated }) => !deviated);
  const entries = [...statuses];
  return {
    counts: {
      ...countFindings(findings),
      passed: countEnded(statuses, 'passed'),
      notRun: countEnded(statuses, 'not_run'),
      setAside: countEnded(statuses, 'set_aside'),
    },
    findings: open.map(({ severity, check, message, key, case: inCase }) => ({
      severity,
      check,
      message,
      key,
      case: inCase,
    })),
    deviations: deviationLines(facts),
    notRun: entries.flatMap(([check, each]) => (each.status === 'not_run' ? [{ check, missing: each.missing }] : [])),
    setAside: entries.flatMap(([check, each]) => (each.status === 'set_aside' ? [{ check, reason: each.reason }] : [])),
    figures: fileFigures(facts),
    cases: facts.caseNames,
    caseFigures: caseFigures(facts),
  };
}

function deviationLines({ file }: Facts): readonly DeviationLine[] {
  const accepted = readDeviations(file.document);
  return file.findings
    .filter(({ deviated }) => deviated)
    .map(({ severity, check, message, key, case: inCase }) => {
      const own = accepted.find(
        (each) =>
          each.check === check && (each.key ?? key) === key && (each.case === undefined || each.case === inCase),
      );
      const { reason = '', until = '', approvedBy = '' } = own ?? {};
      return { severity, check, message, key, case: inCase, reason, until, approvedBy };
    });
}

function fileFigures(facts: Facts): readonly FigureLine[] {
  const line = (title: string, value: string | undefined) => (value === undefined ? [] : [{ title, values: [value] }]);
  return [
    ...ENTRIES.flatMap(([title, key]) => line(title, facts.show(key))),
    ...FILE_FIGURES.flatMap(([title, id]) => line(title, facts.showValue(id))),
  ];
}

function caseFigures(facts: Facts): readonly FigureLine[] {
  return CASE_FIGURES.flatMap(([title, id]) => {
    const values = facts.caseNames.map((_, at) => {
      const measure = facts.valueMeasure(id, at);
      return measure === undefined ? '–' : shown(measure);
    });
    return values.every((value) => value === '–') ? [] : [{ title, values }];
  });
}

import { CATALOGUE } from '../../engine/index.ts';
import { PLAIN } from '../../render/paint.ts';
import type { Report } from '../../render/report.ts';
import type { Means, ReportForm, Setup } from './setup.ts';

/** A report of some form; what writes it is loaded only when it is asked for. */
export async function reportOf(
  { format, width, isColoured }: ReportForm,
  { show, failOn, version }: Pick<Setup, 'show' | 'failOn' | 'version'>,
  { colours }: Means,
  nameOf: (path: string) => string,
): Promise<Report> {
  switch (format) {
    case 'json':
      return (await import('../../render/json/check.ts')).checkJsonReport(nameOf);
    case 'sarif':
      return (await import('../../render/sarif/report.ts')).sarifReport({ nameOf, catalogue: CATALOGUE, version });
    case 'junit':
      return (await import('../../render/junit/report.ts')).junitReport({ nameOf, failOn });
    case 'markdown':
      return (await import('../../render/markdown/findings.ts')).markdownReport(nameOf);
    case 'text': {
      const { findingsReport } = await import('../../render/text/findings.ts');
      return findingsReport({ nameOf, width, paint: isColoured ? colours : PLAIN, show: new Set(show) });
    }
  }
}

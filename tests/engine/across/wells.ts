import { type CheckedFile, Repository } from '../../../server/src/engine/index.ts';

/** What an installation of these tests says; each has a default of its own, so that two differ unless told. */
export interface Well {
  readonly well?: string;
  readonly field?: string | undefined;
  readonly pad?: string;
  /** Serial numbers of pump and motor. */
  readonly serials?: readonly [string, string];
  /** Base of the depths, in metres. */
  readonly depth?: number;
  /** Base of the currents, in amperes. */
  readonly current?: number;
  readonly restart?: string;
}

/** An installation with fourteen entries that are compared: four depths, two serials, eight setpoints. */
export function wellText(number: number, told: Well = {}): string {
  const {
    well = `T-${number}`,
    field = 'Testfield',
    pad = 'T',
    depth = 1000 + 10 * number,
    current = 10 + number,
  } = told;
  const [pump, motor] = told.serials ?? [`P-${number}`, `M-${number}`];
  const restart = told.restart ?? `{ mode: automatic, delay: ${60 + number} min, after: [undervoltage] }`;
  return `document: installation/1
site: { ${field === undefined ? '' : `field: ${field}, `}pad: ${pad}, well: ${well} }
lift: linear
well:
  intake: { md: ${depth} m, tvd: ${depth - 1} m }
  perforations: { md: ${depth + 60} m, tvd: ${depth + 58} m }
equipment:
  pump: { serial: ${pump} }
  motor: { serial: ${motor} }
operation: { cases: [] }
setpoints:
  drive: { base_frequency: ${current / 8} Hz, ramp_up: ${current + 1} s, ramp_down: ${current + 2} s }
  protection:
    overload: { trip: ${current} A, alarm: ${current - 0.5} A }
    underload: { trip: ${current / 4} A }
    short_circuit: { trip: ${current * 2} A }
  restart: ${restart}
`;
}

export function fleet(texts: Readonly<Record<string, string>>): Repository {
  const changes = Object.entries(texts).map(([path, text]) => ({ path, text }));
  return Repository.empty({ root: '', today: '2026-06-01' }).update(changes);
}

export function checkedIn(repository: Repository, path: string): CheckedFile {
  const file = repository.check(path);
  if (file === undefined) throw new Error(`there is no ${path}`);
  return file;
}

/** What a check says of a file. */
export function saidBy(check: string, repository: Repository, path: string) {
  return checkedIn(repository, path).findings.filter((each) => each.check === check);
}

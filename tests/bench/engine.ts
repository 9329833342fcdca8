import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parseEvents } from 'js-yaml';
import { parseDocument } from 'yaml';
import { VALIDATORS } from '../../server/src/engine/format/generated/validators.js';
import { type Change, Repository } from '../../server/src/engine/index.ts';

/** Work of the bench that runs inside one process: the engine next to what it cannot beat and what it must beat. */
export interface Peer {
  readonly name: string;
  readonly run: (turn: number) => unknown;
}

const TODAY = '2026-01-01';

/** A repository that holds a well with all its sheets. */
export function openWell(path: string, root: string): Repository {
  let repository = Repository.empty({ root, today: TODAY }).update([change(path)]);
  for (let wanted = repository.wanted(); wanted.length > 0; wanted = repository.wanted()) {
    repository = repository.update(wanted.map(change));
  }
  return repository;
}

function change(path: string): Change {
  try {
    return { path, text: readFileSync(path, 'utf8') };
  } catch {
    return { path, absent: true };
  }
}

/**
 * One file, warm. Each turn changes the text: read for the first time by a set that has its data sheets, and edited,
 * where only what the edit bears on is worked out again.
 */
export function onWarmFile(path: string, root: string): readonly Peer[] {
  const text = readFileSync(path, 'utf8');
  const json = JSON.stringify(parseDocument(text).toJS());
  let edited = openWell(path, root);
  const sheets = edited.without([path]);
  return [
    {
      name: 'setproof, full check',
      run: (turn) => sheets.update([{ path, text: `${text}# ${turn}\n` }]).check(path),
    },
    {
      name: 'setproof, a trip edited',
      run: (turn) => {
        edited = edited.update([{ path, text: withTrip(text, turn) }]);
        return edited.check(path);
      },
    },
    {
      name: 'yaml + compiled schema',
      run: (turn) => VALIDATORS.installation(parseDocument(`${text}# ${turn}\n`).toJS()),
    },
    { name: 'js-yaml events alone', run: (turn) => parseEvents(`${text}# ${turn}\n`, {}) },
    { name: 'JSON.parse + compiled schema', run: () => VALIDATORS.installation(JSON.parse(json)) },
  ];
}

/** The first trip with another number at each turn. */
function withTrip(text: string, turn: number): string {
  return text.replace(/trip: (\d+)/, (_, digits) => `trip: ${Number(digits) + (turn % 3)}`);
}

/** Many installations that share their data sheets: the same well under other names. */
export function manyWells(path: string, root: string, count: number): readonly Change[] {
  const text = readFileSync(path, 'utf8');
  const folder = dirname(path);
  const well = /^ {2}well: (.*)$/m.exec(text)?.[1] ?? 'W';
  const sheets = openWell(path, root)
    .paths()
    .filter((each) => each !== path)
    .map(change);
  const wells = Array.from({ length: count }, (_, index) => ({
    path: join(folder, `bench-${index}.yaml`),
    text: text.replaceAll(well, `Bench-${index}`),
  }));
  return [...sheets, ...wells];
}

/** How long it takes to check all wells from nothing, and again after one of their data sheets was changed; ms. */
export function sheetChange(path: string, root: string, count: number, timed: (run: () => void) => number) {
  const changes = manyWells(path, root, count);
  let repository = Repository.empty({ root, today: TODAY });
  const checkEvery = () => {
    for (const each of repository.paths()) repository.check(each);
  };
  const fromScratch = timed(() => {
    repository = repository.update(changes);
    const wanted = repository.wanted();
    if (wanted.length > 0) repository = repository.update(wanted.map(change));
    checkEvery();
  });
  const sheet = changes.find((each) => 'text' in each);
  if (sheet === undefined || !('text' in sheet)) throw new Error('the well has no data sheet');
  const afterChange = timed(() => {
    repository = repository.update([{ ...sheet, text: `${sheet.text}# changed\n` }]);
    checkEvery();
  });
  return { fromScratch, afterChange };
}

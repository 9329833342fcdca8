// The page of docs/ that says what was measured.
import { cpus, loadavg } from 'node:os';
import { WHY } from './why.mjs';

const IDLE = 0.5;

export function machineNow() {
  return { processors: cpus().length, model: cpus()[0]?.model.trim() ?? 'unknown', load: loadavg()[0] };
}

/** @param rows what was measured; @param machines the machine before and after */
export function performancePage(rows, machines) {
  const missed = rows.filter((row) => verdict(row) === 'no');
  return [
    '# Performance',
    '',
    'Written by `npm run bench`; do not edit. Medians; the runs of a line and of what stands beside it take turns in one',
    'run, so that the ratio holds on a busy machine, where the times themselves do not.',
    '',
    `Machine: ${machineText(machines)}; Node ${process.version}. ${certificates()}`,
    '',
    '| Work | Measured | Beside it | Ratio | Goal | Met |',
    '| --- | --- | --- | --- | --- | --- |',
    ...rows.map(
      (row) =>
        `| ${row.work} | ${amount(row)} | ${besides(row)} | ${ratioText(row)} | ${goalText(row)} | ${verdict(row)} |`,
    ),
    '',
    'Left out: peers that would have to be installed for the bench alone (a schema validator’s command line, linters for',
    'YAML). The goal for a repository is what such a validator takes for the schema alone, 1.2 times the events. A general',
    'language server for YAML is measured where `npm ci` was run in `tests/bench`.',
    '',
    ...(missed.length === 0 ? [] : ['## What is not met, and why', '', ...missed.map(reason), '']),
  ].join('\n');
}

function machineText([before, after]) {
  const busy = Math.max(before.load, after.load);
  const use =
    busy < IDLE ? 'idle' : `shared with other work (load ${before.load.toFixed(1)} to ${after.load.toFixed(1)})`;
  return `${before.processors} × ${before.model}, ${use}`;
}

/** Node reads such a file before it does anything else, which lengthens the floor and every start alike. */
function certificates() {
  return process.env.NODE_EXTRA_CA_CERTS
    ? '`NODE_EXTRA_CA_CERTS` is set, which makes every start of Node longer, the floor too: the ratios of cold starts are better than without.'
    : '`NODE_EXTRA_CA_CERTS` is not set.';
}

function amount({ ms, megabytes }) {
  return ms === undefined ? `${megabytes.toFixed(megabytes < 10 ? 2 : 0)} MB` : time(ms);
}

function time(ms) {
  return ms >= 1000 ? `${(ms / 1000).toFixed(2)} s` : `${ms.toFixed(ms < 10 ? 2 : 0)} ms`;
}

function besides({ beside, also = [] }) {
  return [beside, ...also].flatMap((each) => (each ? [`${each.name} ${time(each.ms)}`] : [])).join('; ');
}

function ratioOf({ ms, beside }) {
  return beside === undefined ? undefined : ms / beside.ms;
}

function ratioText(row) {
  const ratio = ratioOf(row);
  return ratio === undefined ? '' : `${ratio.toFixed(2)} ×`;
}

function goalText({ goal }) {
  if (goal === undefined) return '';
  if (goal.ratio !== undefined) return `≤ ${goal.ratio} ×`;
  return goal.ms === undefined ? `≤ ${goal.megabytes} MB` : `≤ ${goal.ms} ms`;
}

function verdict(row) {
  const { goal, ms, megabytes } = row;
  if (goal === undefined) return '';
  const [is, most] =
    goal.ratio !== undefined
      ? [ratioOf(row), goal.ratio]
      : goal.ms !== undefined
        ? [ms, goal.ms]
        : [megabytes, goal.megabytes];
  return is <= most ? 'yes' : 'no';
}

function reason({ id, work }) {
  return `- **${work}**: ${WHY[id] ?? 'not looked into yet.'}`;
}

// What the engine costs in a process that runs already, next to the parsers and validators that it could be made of.
import { takingTurns, timed } from './measure.mjs';

const TURNS = 1500;
const USERS = 1000;

export function warmRows({ onWarmFile, sheetChange }, well, samples) {
  const peers = onWarmFile(well, samples);
  const runs = () => Object.fromEntries(peers.map(({ name, run }) => [name, run]));
  takingTurns(runs(), TURNS >> 1);
  const medians = takingTurns(runs(), TURNS >> 1);
  const beside = (name) => ({ name, ms: medians[name] });
  const [own, whole, ...others] = peers.map(({ name }) => name);
  const { afterChange, fromScratch } = sheetChange(well, samples, USERS, timed);
  return [
    {
      id: 'warm',
      work: 'full check of one file, warm: parse, schema, all values in all cases, every check',
      ms: medians[own],
      beside: beside(whole),
      also: others.map(beside),
      goal: { ratio: 0.2 },
    },
    {
      id: 'sheet',
      work: `one data sheet changed, ${USERS} installations that use it checked again`,
      ms: afterChange,
      beside: { name: 'all checked from nothing', ms: fromScratch },
      goal: { ratio: 0.3 },
    },
  ];
}

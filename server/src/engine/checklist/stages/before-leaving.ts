import { gasCautions } from '../cautions.ts';
import { allConnections, type Connection, withBothSystems } from '../connections.ts';
import type { Facts } from '../facts.ts';
import { instruments } from '../instruments.ts';
import { itemsOf, nameOf } from '../items.ts';
import { lifting } from '../lifting.ts';
import { NEWTON_METRES_PER_POUND_FOOT } from '../make-up.ts';
import { act, only, read, type Step, slug, slugs, under } from '../step.ts';

/** Stage 1: everything that must be in the truck, and every permission that must be in hand. */
export function beforeLeaving(facts: Facts): readonly Step[] {
  const connections = allConnections(facts);
  return [
    ...under('Documents and permits', documents(facts)),
    ...under('Protective equipment', protection(facts)),
    ...under('Tools', tools(connections)),
    ...under('Instruments', instruments(facts)),
    ...under('Consumables and seals', consumables(facts, connections)),
    ...under('Lifting gear', lifting(facts)),
  ];
}

function documents(facts: Facts): readonly Step[] {
  const names = itemsOf(facts).map((item) => nameOf(facts, item));
  const id = (name: string) => `before_leaving.documents.${name}`;
  return [
    act(id('sheet'), 'Take this sheet in its current revision, on paper or on the tablet.'),
    act(id('manuals'), `Take the makers’ manuals of ${names.join(', ') || 'all equipment'}.`),
    act(id('wiring'), 'Take the wiring diagram and the well sketch as it is to be after this visit.'),
    act(
      id('well_programme'),
      'Take the well programme: barriers, kill fluid, pressure tests, what to do when the well flows.',
    ),
    act(
      id('permit'),
      'Have the permit to work, and the site’s isolation procedure with the names of those who switch.',
    ),
    act(id('lifting_plan'), 'Have the lifting plan, signed, for the heaviest lift on this sheet.'),
    act(id('licence'), 'See that the people who work on the electrical side are licensed for this voltage.'),
    ...only(
      facts.hasSour,
      act(id('sour'), `Have the permit for work with H2S; the file gives ${facts.show('fluid.h2s')} in the fluid.`),
    ),
    ...only(
      !facts.has('fluid.h2s'),
      act(
        id('sour_unknown'),
        "Ask the site whether the well has H2S: the file does not say ('fluid.h2s' is not entered).",
      ),
    ),
    ...only(
      facts.isClassified,
      act(
        id('classified'),
        `Have the certificates of instruments and tablets for the area: ${facts.text('site.hazardous_area')}.`,
      ),
    ),
  ];
}

function protection(facts: Facts): readonly Step[] {
  const id = (name: string) => `before_leaving.protection.${name}`;
  return [
    ...gasCautions(facts, 'before_leaving'),
    act(id('personal'), 'Take helmets, eye protection, gloves for work and for voltage, boots and hearing protection.'),
    act(id('lockout'), 'Take a personal lock and tag for each person and each point of isolation.'),
    act(id('earths'), 'Take portable earths for the transformer and the cable ends, and a discharge stick.'),
    act(id('barriers'), 'Take tape or fences and signs for the exclusion zone and for the insulation test.'),
    ...only(
      facts.hasSour,
      act(id('breathing'), 'Take breathing apparatus and a personal H2S detector for each person, tested today.'),
    ),
    ...only(
      facts.restartsItself,
      act(id('sign'), 'Take the sign “Starts by itself, without warning” for wellhead and drive.'),
    ),
  ];
}

/** One line a wrench, with the joints that it is for; then the torque wrench that covers them all. */
function tools(connections: readonly Connection[]): readonly Step[] {
  const wrenches = byText(connections, (each) => each.wrench);
  const names = slugs([...wrenches.keys()]);
  const id = (name: string) => `before_leaving.tools.${name}`;
  return [
    ...[...wrenches].map(([wrench, joints], index) =>
      act(id(names[index] ?? wrench), `Take: ${withBothSystems(wrench)}.`, {
        note: `For ${jointNames(joints)}.`,
      }),
    ),
    torqueWrench(connections),
    ...only(wrenches.size === 0, noWrenches(connections)),
    act(id('cable'), 'Take cable cutters, a stripping knife, and the crimping tool with the dies for the conductor.'),
    act(id('bands'), 'Take the tool that closes the cable bands or protectors, and a spare for it.'),
    act(
      id('sheave'),
      'Take the cable sheave and the brake for the reel; the sheave is no tighter than the cable bends.',
    ),
    act(id('tally'), 'Take the measuring tape and the tally book for the depth.'),
  ];
}

function noWrenches(connections: readonly Connection[]): Step {
  const where = connections.length === 0 ? "'connections'" : "'wrench' at each of the 'connections'";
  return act('before_leaving.tools.wrenches', 'Find the wrenches for all joints in the makers’ manuals.', {
    note: `The data sheets name none: enter ${where} in them.`,
  });
}

function torqueWrench(connections: readonly Connection[]): Step {
  const torques = connections
    .flatMap(({ newtonMetres: { min, max } }) => [min, max])
    .filter((each) => each !== undefined);
  const text = 'Take the torque wrenches. Enter their number and until when the calibration holds.';
  const fields = ['number', 'calibrated until'];
  const id = 'before_leaving.tools.torque_wrench';
  if (torques.length === 0) {
    const note = "The range is not known: enter 'torque' at the 'connections' in the data sheets.";
    return read(id, text, { fields, note });
  }
  const [least, most] = [Math.min(...torques), Math.max(...torques)];
  return read(id, text, { fields, note: `They must cover ${inBothTorques(least)} to ${inBothTorques(most)}.` });
}

function inBothTorques(newtonMetres: number): string {
  return `${newtonMetres.toFixed(0)} N.m (${(newtonMetres / NEWTON_METRES_PER_POUND_FOOT).toFixed(0)} lbf.ft)`;
}

function consumables(facts: Facts, connections: readonly Connection[]): readonly Step[] {
  const id = (name: string) => `before_leaving.consumables.${name}`;
  return [
    ...listedBy(connections, 'seal', (text) => `Take ${text}, and a spare set.`, id),
    ...listedBy(connections, 'fill', (text) => `Take ${text}, clean and in closed cans, with the filling gear.`, id),
    ...listedBy(connections, 'fastener', (text) => `Take spare fasteners ${text}.`, id),
    ...only(
      !connections.some(({ seal }) => seal !== undefined),
      act(id('seals'), 'Find the seals for all joints in the makers’ manuals and take two sets.', {
        note: "The data sheets name none: enter 'seal' at the 'connections' in them.",
      }),
    ),
    spliceKit(facts),
    act(id('bands'), 'Take cable bands or protectors for the whole string, and one in ten more.', {
      note: bandCount(facts),
    }),
    act(id('caps'), 'Take insulating caps and tape for all lead and cable ends.'),
    act(id('cleaning'), 'Take clean lint-free cloth, the cleaning fluid that the makers allow, and thread compound.'),
  ];
}

function spliceKit(facts: Facts): Step {
  const rating =
    facts.show('equipment.cable.main[0].conductor_temperature_max') ??
    facts.show('equipment.cable.main.conductor_temperature_max');
  const voltage =
    facts.show('equipment.cable.main[0].voltage_class') ?? facts.show('equipment.cable.main.voltage_class');
  const note =
    rating === undefined && voltage === undefined
      ? "The ratings are not known: enter 'conductor_temperature_max' and 'voltage_class' in the cable’s data sheet."
      : `Rated for at least ${[rating, voltage].filter((each) => each !== undefined).join(' and ')}, as the cable is; not expired.`;
  return act('before_leaving.consumables.splice', 'Take two splice kits for the cable.', { note });
}

/** Length of a joint of tubing, of the usual range 2; common practice, no source. */
const JOINT = 9.6;

function bandCount(facts: Facts): string | undefined {
  const depth = facts.number('well.intake.md');
  if (depth === undefined) return "The number is not known: enter 'well.intake.md'.";
  const joints = Math.ceil(depth / JOINT);
  return `About ${2 * joints}: two a joint, ${joints} joints of ${facts.showNumber(JOINT, 'length', 'well.intake.md')} (common practice, no source).`;
}

type Listed = 'seal' | 'fill' | 'fastener';

function listedBy(
  connections: readonly Connection[],
  what: Listed,
  sentence: (text: string) => string,
  id: (name: string) => string,
): readonly Step[] {
  const texts = byText(connections, (each) => each[what]);
  const names = slugs([...texts.keys()]);
  return [...texts].map(([text, joints], index) =>
    act(id(`${what}_${names[index]}`), sentence(withBothSystems(text)), { note: `For ${jointNames(joints)}.` }),
  );
}

/** Joints by what they need; texts that differ in punctuation alone are one thing to take along. */
function byText(
  connections: readonly Connection[],
  textOf: (connection: Connection) => string | undefined,
): ReadonlyMap<string, readonly Connection[]> {
  const found = new Map<string, { readonly text: string; readonly joints: Connection[] }>();
  for (const each of connections) {
    const text = textOf(each);
    if (text === undefined) continue;
    const known = found.get(slug(text));
    if (known === undefined) found.set(slug(text), { text, joints: [each] });
    else known.joints.push(each);
  }
  return new Map([...found.values()].map(({ text, joints }) => [text, joints]));
}

function jointNames(connections: readonly Connection[]): string {
  return connections.map(({ item, name }) => `${item.title}, ${name}`).join('; ');
}

import { NONE, type NodeIndex } from '../../syntax/tree.ts';
import { capitalise } from '../../text/words.ts';
import { restartCautions, warn } from '../cautions.ts';
import type { Facts } from '../facts.ts';
import { act, only, type Step, type StepDetails, set, under } from '../step.ts';
import { limitOfWindow, windowOf, windowRemarks, windowWords } from '../window-words.ts';

/** Stage 5: the setting sheet, grouped as the document is. */
export function settings(facts: Facts): readonly Step[] {
  const groups = settingGroups(facts);
  return [
    ...under('Before the settings', [
      act('settings.identity', 'See that the controller is the one of this well, and save its settings as found.'),
      act(
        'settings.units',
        'See in which units and from which zero the controller counts: bar or psi, gauge or absolute, motor or drive amps.',
      ),
      ...only(facts.holdsOffTrips, warn('settings', 'override')),
      ...restartCautions(facts, 'settings'),
    ]),
    ...groups.flatMap(({ title, steps }) => under(title, steps)),
    ...under('Not in the file', missingSetpoints(facts)),
    ...under('Proof', proofs(facts)),
  ];
}

interface SettingGroup {
  readonly title: string;
  readonly steps: readonly Step[];
}

/** Parts of the document that are entered in the controller, in its order. */
function settingGroups(facts: Facts): readonly SettingGroup[] {
  const setpoints = facts.evaluation.installation.document.tree.find('setpoints');
  const { tree } = facts.evaluation.installation.document;
  const parts = setpoints === NONE ? [] : [...tree.children(setpoints)];
  return [
    { title: 'Operation', steps: operation(facts) },
    ...parts.flatMap((part) =>
      tree.key(part) === 'protection'
        ? [...tree.children(part)].map((each) => groupOf(facts, each, 'Protection: '))
        : [groupOf(facts, part, '')],
    ),
  ].filter(({ steps }) => steps.length > 0);
}

function groupOf(facts: Facts, node: NodeIndex, prefix: string): SettingGroup {
  const title = titleOf(facts, node);
  return {
    title: capitalise(`${prefix}${prefix === '' ? title : title.toLowerCase()}`),
    steps: leaves(facts, node).map((leaf) => setStep(facts, leaf, title)),
  };
}

function leaves(facts: Facts, node: NodeIndex): readonly NodeIndex[] {
  const { tree } = facts.evaluation.installation.document;
  if (tree.isMapping(node)) return [...tree.children(node)].flatMap((child) => leaves(facts, child));
  return tree.isAbsent(node) ? [] : [node];
}

function titleOf(facts: Facts, node: NodeIndex): string {
  const { tree, shapes } = facts.evaluation.installation.document;
  return shapes[node]?.title ?? tree.key(node);
}

function setStep(facts: Facts, node: NodeIndex, group: string): Step {
  const { tree } = facts.evaluation.installation.document;
  const key = tree.path(node);
  // The window of the tap is in volts: it belongs to the voltage that stands beside it.
  const reading = windowOf(facts, key === 'setpoints.transformer.voltage' ? 'setpoints.transformer.tap' : key);
  const limit = reading === undefined || isText(facts, node) ? undefined : limitOfWindow(facts, reading, key);
  const own = titleOf(facts, node);
  const text = own === group ? own : `${group}: ${own.toLowerCase()}`;
  return set(`settings.${key.replace(/^setpoints\./, '')}`, text, {
    ...plannedOf(facts, node, key),
    ...choicesOf(facts, node),
    limit,
    note:
      (limit === undefined ? windowWords(facts, reading) : windowRemarks(facts, reading)) || choiceMeaning(facts, node),
  });
}

function isText(facts: Facts, node: NodeIndex): boolean {
  return facts.evaluation.installation.document.shapes[node]?.type === 'text';
}

function plannedOf(facts: Facts, node: NodeIndex, key: string): StepDetails {
  const { tree, shapes } = facts.evaluation.installation.document;
  const measure = facts.measure(key);
  if (measure !== undefined) return { planned: measure.number, unit: measure.unit || undefined };
  if (tree.isSequence(node)) {
    const items = [...tree.children(node)].map((item) => tree.scalar(item).replaceAll('_', ' '));
    return { planned: items.join(', ') || 'none' };
  }
  const text = tree.scalar(node);
  const type = shapes[node]?.type;
  if (type === 'boolean') return { planned: /^(yes|true|on)$/i.test(text) };
  if (type === 'integer' || type === 'number') return { planned: Number(text) };
  return { planned: type === 'choice' ? text.replaceAll('_', ' ') : text };
}

/** The words that the format knows for a setting, where it is not a number or a free text. */
function choicesOf(facts: Facts, node: NodeIndex): StepDetails {
  const shape = facts.evaluation.installation.document.shapes[node];
  if (shape?.type === 'boolean') return { choices: ['yes', 'no'] };
  if (shape?.type === 'list') return { choices: Object.keys(shape.item?.choices ?? {}), several: true };
  return shape?.choices === undefined ? {} : { choices: Object.keys(shape.choices) };
}

function choiceMeaning(facts: Facts, node: NodeIndex): string | undefined {
  const { tree, shapes } = facts.evaluation.installation.document;
  const choices = shapes[node]?.choices;
  return choices?.[tree.scalar(node)]?.replaceAll('`', '');
}

const STROKE = [
  ['rate', 'Stroke rate'],
  ['length', 'Stroke length'],
  ['up_fraction', 'Share of the loaded stroke'],
  ['dwell', 'Dwell'],
  ['speed', 'Plunger speed'],
] as const;

function operation(facts: Facts): readonly Step[] {
  const one = (key: string, text: string): readonly Step[] => {
    const measure = facts.measure(key);
    if (measure === undefined) return [];
    return [
      set(`settings.${key}`, text, { planned: measure.number, unit: measure.unit, limit: operationLimit(facts, key) }),
    ];
  };
  if (!facts.isLinear) return one('operation.frequency', 'Running frequency');
  return STROKE.flatMap(([name, title]) => one(`operation.stroke.${name}`, title));
}

/** What the pump's sheet allows of a stroke; a window, where there is one, has the last word. */
function operationLimit(facts: Facts, key: string): StepDetails['limit'] {
  const reading = windowOf(facts, key);
  if (reading !== undefined) return limitOfWindow(facts, reading, key);
  const sheet = { 'operation.stroke.rate': 'stroke_rate_max', 'operation.stroke.length': 'stroke_max' }[key];
  const most = sheet === undefined ? undefined : facts.number(`equipment.pump.${sheet}`);
  const quantity = facts.quantity(key);
  if (most === undefined || quantity === undefined) return undefined;
  return { max: facts.notation.ofNumber(most, quantity.kind.name, quantity).number };
}

/** Setpoints that have a window here and that the file does not give: nobody chooses them on site. */
function missingSetpoints(facts: Facts): readonly Step[] {
  return facts.worked.windows
    .filter(({ window, applies, setpoint }) => applies && setpoint === undefined && !facts.has(window.setpoint))
    .map((reading) => {
      const { setpoint: key, title } = reading.window;
      return act(
        `settings.missing.${key.replace(/^setpoints\./, '')}`,
        `Ask for ${title} before the start: the file gives none ('${key}').`,
        {
          note: windowWords(facts, reading) || undefined,
        },
      );
    });
}

/** Each protection is proved once, not only entered. */
function proofs(facts: Facts): readonly Step[] {
  const { document } = facts.evaluation.installation;
  const protections = [...document.tree.children(document.tree.find('setpoints.protection'))];
  const enabled = protections.filter(
    (node) => facts.text(`${document.tree.path(node)}.enabled`)?.match(/^(no|false|off)$/i) == null,
  );
  return [
    ...enabled.map((node) =>
      act(
        `settings.proof.${document.tree.key(node)}`,
        `Prove by test or simulation that ${titleOf(facts, node).toLowerCase()} ${actsHow(facts, document.tree.path(node))}.`,
      ),
    ),
    act(
      'settings.read_back',
      'Read all settings back from the controller, compare them with this sheet, and save them as left.',
    ),
  ];
}

function actsHow(facts: Facts, key: string): string {
  return facts.text(`${key}.response`) === 'warn_only' ? 'raises its alarm' : 'stops the unit';
}

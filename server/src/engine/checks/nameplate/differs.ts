import type { Document } from '../../format/document.ts';
import { NONE, type NodeIndex } from '../../syntax/tree.ts';
import type { CheckContext } from '../context.ts';
import { type Check, check, type Judgement } from '../declare.ts';
import { type Item, itemsOf } from '../slots.ts';

/** Keys that mean something else in an entry than on a sheet: the run of a cable is not the length on its reel. */
const OF_THE_RUN: ReadonlySet<string> = new Set(['length']);
/** Two readings of one plate differ by their last digit: 59.7 kW and 80 hp. */
const SAME = 1e-3;

/** Checks that say more of the same slip: their numbers rest on these keys. */
const MORE_SAID_BY: readonly { readonly keys: RegExp; readonly checks: readonly string[] }[] = [
  {
    keys: /^equipment\.motor\.(power|voltage|current|power_factor|efficiency|thrust|speed)$/,
    checks: ['nameplate.inconsistent', 'motor.speed-and-frequency-disagree'],
  },
  { keys: /^equipment\.motor\.(pole_pitch|poles|frequency)$/, checks: ['motor.speed-and-frequency-disagree'] },
  { keys: /^equipment\.motor\.phase_resistance$/, checks: ['nameplate.inconsistent'] },
  {
    keys: /^equipment\.cable\..*\.(conductor|resistance_20)$/,
    checks: ['cable.size-not-standard', 'cable.resistance-implausible'],
  },
];

interface Place {
  readonly document: Document;
  readonly node: NodeIndex;
}

function isSame(own: Place, sheet: Place): boolean {
  const one = own.document.quantities[own.node];
  const other = sheet.document.quantities[sheet.node];
  if (one !== undefined && other !== undefined)
    return Math.abs(one.value - other.value) <= SAME * Math.abs(other.value);
  if (own.document.tree.isScalar(own.node)) return isSameScalar(own, sheet);
  return isSameCollection(own, sheet);
}

function isSameScalar(own: Place, sheet: Place): boolean {
  return sheet.document.tree.isScalar(sheet.node) && textOf(own) === textOf(sheet);
}

function textOf({ document, node }: Place): string {
  return document.tree.scalar(node).trim();
}

/** Lists by their order, mappings by their keys; what an entry leaves out of a mapping differs too: it replaces all. */
function isSameCollection(own: Place, sheet: Place): boolean {
  const [tree, other] = [own.document.tree, sheet.document.tree];
  if (tree.kind(own.node) !== other.kind(sheet.node)) return false;
  if (tree.childCount(own.node) !== other.childCount(sheet.node)) return false;
  return [...tree.children(own.node)].every((child, at) => {
    const match = tree.hasKey(child) ? other.child(sheet.node, tree.key(child)) : other.item(sheet.node, at);
    return match !== NONE && isSame({ ...own, node: child }, { ...sheet, node: match });
  });
}

function differingKeys(context: CheckContext, item: Item): readonly Judgement[] {
  const { document, sheets } = context.evaluation.installation;
  const sheet = sheets.get(item.node);
  if (sheet === undefined) return [];
  const isRun = item.key.startsWith('equipment.cable.');
  return [...document.tree.children(item.node)].flatMap((own) => {
    const key = document.tree.key(own);
    const other = sheet.tree.child(sheet.tree.root, key);
    if (other === NONE || (isRun && OF_THE_RUN.has(key)) || document.tree.isAbsent(own)) return [];
    const isEqual = isSame({ document, node: own }, { document: sheet, node: other });
    return isEqual ? [] : [judge(item, key, { document, node: own }, { document: sheet, node: other })];
  });
}

function judge(item: Item, key: string, own: Place, sheet: Place): Judgement {
  const isScalar = own.document.tree.isScalar(own.node) && sheet.document.tree.isScalar(sheet.node);
  const numbers = isScalar ? `: ${textOf(own)} here, ${textOf(sheet)} on the sheet` : '';
  const place = `${item.key}.${key}`;
  const follows = MORE_SAID_BY.flatMap(({ keys, checks }) => (keys.test(place) ? checks : []));
  return {
    key: place,
    message: `'${key}' of ${item.title} is not that of its data sheet${numbers}. Correct the slip; if the plate of this very item says so, keep it and accept the difference as a deviation.`,
    related: [{ key: `${item.key}.datasheet`, message: 'the data sheet' }],
    fixes: isScalar
      ? [{ title: `Take the sheet’s ${textOf(sheet)}`, kind: 'offer', key: place, newText: textOf(sheet) }]
      : [],
    ...(follows.length === 0 ? {} : { follows }),
  };
}

const VOLTAGE = 'equipment.motor.voltage';

export const NAMEPLATE_DIFFERS: Check = check({
  id: 'nameplate.differs',
  severity: 'warning',
  title: 'entry overrides its data sheet with another rating',
  compares: 'each key that an equipment entry has in common with its data sheet, to a thousandth',
  why:
    'The entry stands for the nameplate of that very item and outranks the sheet. If it is a slip, every check ' +
    'goes by it.',
  mend: 'Take the entry out, or correct it; if it is right, record why in a deviation.',
  source: 'the document format',
  example: { lift: 'linear', fails: { [VOLTAGE]: '650 V' }, passes: { [VOLTAGE]: '0.62 kV' }, at: VOLTAGE },
  needs: {},
  run: (_, context) => itemsOf(context.evaluation).flatMap((item) => differingKeys(context, item)),
});

// What a schema of ours must keep to, beyond being JSON Schema. Every problem is told with its place.
import { Ajv2020 } from 'ajv/dist/2020.js';
import { visit } from './flatten.mjs';
import { DOCUMENT_KINDS, SchemaError, VOCABULARY_FILE } from './read.mjs';

const STANDARD_KEYWORDS = [
  ...['$schema', '$defs', '$ref', 'title', 'description', 'examples', 'type', 'enum', 'required'],
  ...['properties', 'patternProperties', 'unevaluatedProperties', 'items', 'minimum', 'maximum'],
];
const EXTENSION_KEYS = '^x_';

/** Our own keywords, as the vocabulary declares them. */
export function ownKeywords(vocabulary) {
  return Object.keys(vocabulary.properties);
}

function refuse(problems) {
  if (problems.length > 0) throw new SchemaError(problems);
}

/** Judges the files as written: known keywords only, each of its right form. */
export function judgeFiles(files) {
  const vocabulary = files.get(VOCABULARY_FILE);
  const known = new Set([...STANDARD_KEYWORDS, ...ownKeywords(vocabulary)]);
  const written = [...files].filter(([name]) => name !== VOCABULARY_FILE);
  refuse(written.flatMap(([name, schema]) => unknownKeywords(schema, name, known)));
  // A meta-schema speaks of booleans and objects alike, which strictTypes does not allow for.
  const ajv = new Ajv2020({ strict: true, strictTypes: false, allErrors: true }).addVocabulary(ownKeywords(vocabulary));
  const valid = ajv.compile(vocabulary);
  refuse(written.flatMap(([name, schema]) => (valid(schema) ? [] : formProblems(name, valid.errors))));
}

function formProblems(name, errors) {
  return errors.map((error) => `${name}${error.instancePath}: ${error.message}.`);
}

function unknownKeywords(schema, place, known) {
  if (typeof schema !== 'object') return [];
  const own = Object.keys(schema)
    .filter((keyword) => !known.has(keyword))
    .map((keyword) => `${place}: ${keywordProblem(keyword)}`);
  const groups = ['$defs', 'properties', 'patternProperties'].flatMap((group) =>
    Object.entries(schema[group] ?? {}).map(([key, child]) => [`${place}/${group}/${key}`, child]),
  );
  const children = schema.items ? [...groups, [`${place}/items`, schema.items]] : groups;
  return [...own, ...children.flatMap(([at, child]) => unknownKeywords(child, at, known))];
}

function keywordProblem(keyword) {
  const branches = keyword === 'oneOf' || keyword === 'anyOf';
  return branches
    ? `${keyword} turns one misspelling into an error for each branch; list the keys together and branch in code.`
    : `the keyword "${keyword}" is not declared in ${VOCABULARY_FILE}.`;
}

/** Judges the flattened documents: texts everywhere, maps closed, every scalar of a known sort. */
export function judgeFlattened(documents, quantities) {
  const problems = [];
  for (const [kind, root] of documents) {
    visit(root, kind, (schema, place) => {
      problems.push(...RULES.flatMap((rule) => rule(schema, quantities) ?? []).map((text) => `${place}: ${text}`));
    });
  }
  refuse([...new Set(problems)]);
}

const RULES = [
  textsPresent,
  mapClosed,
  requiredKnown,
  listTyped,
  stringSorted,
  kindKnown,
  rangeReadable,
  choicesComplete,
  booleanYesNo,
  referenceKnown,
];

function isOf(schema, type) {
  return [schema.type].flat().includes(type);
}

function textsPresent(schema) {
  return ['title', 'description'].filter((text) => !schema[text]).map((text) => `has no ${text}.`);
}

function mapClosed(schema) {
  if (!isOf(schema, 'object')) return schema.properties && 'has properties but is no object.';
  if (schema.additionalProperties !== false) return 'takes any key; write unevaluatedProperties: false.';
  return schema.patternProperties?.[EXTENSION_KEYS] === undefined ? 'does not take x_ keys.' : undefined;
}

function requiredKnown(schema) {
  const absent = (schema.required ?? []).filter((key) => schema.properties?.[key] === undefined);
  return absent.map((key) => `requires ${key}, which it does not list.`);
}

function listTyped(schema) {
  return isOf(schema, 'array') && !schema.items ? 'is a list without items.' : undefined;
}

function stringSorted(schema) {
  const sorts = ['quantity', 'text', 'enum'].filter((sort) => schema[sort] !== undefined);
  if (!isOf(schema, 'string')) return sorts.length > 0 ? `has ${sorts[0]} but is no string.` : undefined;
  return sorts.length === 1 ? undefined : 'is a string and needs exactly one of quantity, text and enum.';
}

function kindKnown({ quantity }, { kindNames }) {
  if (!quantity || kindNames.includes(quantity.kind)) return undefined;
  return `"${quantity.kind}" is no kind of quantity; the kinds are ${kindNames.join(', ')}.`;
}

function rangeReadable({ quantity }, { rangeOf }) {
  if (!quantity?.plausible || rangeOf(quantity.kind, quantity.plausible)) return undefined;
  return `"${quantity.plausible.join(' to ')}" is no range of a ${quantity.kind}.`;
}

function choicesComplete(schema) {
  const listed = Object.keys(schema.choices ?? {});
  return listed.join() === (schema.enum ?? []).join()
    ? undefined
    : 'lists other choices than its enum, or in another order.';
}

function booleanYesNo(schema) {
  return isOf(schema, 'boolean') === (schema.yes_no === true) ? undefined : 'boolean and yes_no go together.';
}

function referenceKnown({ reference, date, text }) {
  if ((reference || date) && !text) return 'a reference or date is a text.';
  const kind = reference?.split('/')[0];
  return kind && !DOCUMENT_KINDS.includes(kind) ? `refers to ${reference}, which is no document of ours.` : undefined;
}

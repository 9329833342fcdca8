/** What the parsers' own errors are called here. The keys are error codes of `yaml`. */
const BY_CODE: Readonly<Record<string, string>> = {
  TAB_AS_INDENT: 'This line is indented with a tab; YAML wants spaces.',
  BAD_INDENT:
    'This is indented neither as the entry above nor as a part of it. Line it up with the entries that it belongs to.',
  BAD_DQ_ESCAPE:
    'Inside double quotes a backslash begins an escape, and this is none. Write two backslashes, or use single quotes.',
  MULTILINE_IMPLICIT_KEY:
    'A key and its colon must stand on one line. Is a colon missing on the line above, or a quote open?',
  BLOCK_AS_IMPLICIT_KEY: 'There are two keys on this line. Quote the value if the colon belongs to it.',
  BLOCK_IN_FLOW: 'A list or mapping by indentation cannot stand inside { } or [ ]. Close the bracket first.',
  KEY_OVER_1024_CHARS: 'This key is longer than 1024 characters. Is a line break or a bracket missing?',
  MULTIPLE_ANCHORS: 'A value takes one anchor at most. Remove the other.',
  BAD_ALIAS: 'An anchor or alias needs a name and no colon at its end. Quote the text if it is none.',
  ALIAS_PROPS: 'An alias takes no anchor and no tag of its own. Remove them.',
  RESOURCE_EXHAUSTION: 'Entries are nested too deep here. Remove the extra levels.',
};

const UNREADABLE =
  'YAML cannot read this. Quote it if it is a text; otherwise look for a missing colon, comma, bracket or quote.';

/** A parser's words that say more than its code, and ours for them; of both parsers. */
const BY_WORDS: readonly (readonly [RegExp, string])[] = [
  [
    /closing.*quote|within a (?:single|double) quoted/i,
    'A quote is opened here and never closed. Close it, or remove it.',
  ],
  [/end with a [}\]]|within a flow collection/i, 'A bracket, { or [, is opened and not closed by here. Close it.'],
  [/missing ,|missed comma/i, 'A comma is missing between two entries inside { } or [ ].'],
  [/followed by map values|expected ':'/i, 'This line has no colon, so it is no entry. Write "key: value".'],
  [/tab characters/i, BY_CODE.TAB_AS_INDENT!],
  [/bad indentation|deficient indentation/i, BY_CODE.BAD_INDENT!],
  [/escape|hexadecimal/i, BY_CODE.BAD_DQ_ESCAPE!],
  [/multiline key/i, BY_CODE.MULTILINE_IMPLICIT_KEY!],
];

/** A full sentence for an error of a parser, from its code (if it has one) and its words. */
export function sentenceFor(words: string, code?: string): string {
  const found = BY_WORDS.find(([pattern]) => pattern.test(words));
  return found?.[1] ?? (code === undefined ? undefined : BY_CODE[code]) ?? UNREADABLE;
}

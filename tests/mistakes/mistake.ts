/** The clean installations in which mistakes are planted. */
export const WELLS = {
  'qm-a1': 'pad-a/qm-a1.yaml',
  'qm-a2': 'pad-a/qm-a2.yaml',
  'qm-a3': 'pad-a/qm-a3.yaml',
  'qm-b1': 'pad-b/qm-b1.yaml',
  'qm-b2': 'pad-b/qm-b2.yaml',
  'qm-b3': 'pad-b/qm-b3.yaml',
  'qm-c1': 'pad-c/qm-c1.yaml',
  'qm-c2': 'pad-c/qm-c2.yaml',
  'qm-c3': 'pad-c/qm-c3.yaml',
  'qm-c4': 'pad-c/qm-c4.yaml',
} as const;

export type Well = keyof typeof WELLS;

/** One slip, as it would be made in one installation or in a data sheet behind it. */
export interface Mistake {
  readonly id: string;
  /** What the engineer did, in words. */
  readonly did: string;
  readonly well: Well;
  /** The data sheet in which it is made, from the folder of the samples; else it is made in the well's own file. */
  readonly sheet?: string;
  /** New texts by dotted key; null takes the entry out; a key that is not there is written anew. */
  readonly edits?: Readonly<Record<string, string | null>>;
  /** Plain replacements in the text, for what the file's own grammar would not let through. */
  readonly text?: readonly (readonly [string, string])[];
  /** The file is a copy of the well under this name, which is left beside it; edits are made in the copy. */
  readonly copiedTo?: string;
  /** Keys beside the edited ones at which it may be caught, themselves or an entry below. */
  readonly also?: readonly string[];
  /** A note is enough: by the catalogue it is no more than something to look at. */
  readonly note?: true;
}

import {
  COLLECTION_STYLE,
  EVENT_ID,
  type Event,
  getScalarValue,
  parseEvents,
  SCALAR_STYLE,
  YAMLException,
} from 'js-yaml';
import { LIMITS } from './limits.ts';
import { startOfSecond } from './scan.ts';
import { NodeKind, ScalarStyle } from './tree.ts';
import type { Masked, TreeWriter } from './writer.ts';

type ScalarEvent = Extract<Event, { type: typeof EVENT_ID.SCALAR }>;

/** Why the fast parser gave up, and where. */
export interface Refusal {
  readonly reason: string;
  readonly offset: number;
}

/** One level more than we take, so that the writer meets the level too many, and one for the scalar in it. */
const PARSER_DEPTH = LIMITS.depth + 2;

/** Events of the whole text, or the first thing that the fast parser cannot read. */
export function readEvents(structure: string): readonly Event[] | Refusal {
  try {
    return parseEvents(structure, { maxDepth: PARSER_DEPTH });
  } catch (error) {
    if (!(error instanceof YAMLException)) throw error;
    return { reason: error.reason, offset: Math.min(error.mark?.position ?? 0, structure.length) };
  }
}

export function writeEvents(events: readonly Event[], masked: Masked, writer: TreeWriter): void {
  for (let at = 0; at < events.length && !writer.isStopped; at++) {
    const event = events[at]!;
    if (event.type === EVENT_ID.SCALAR) writeScalar(event, masked, writer);
    else if (event.type === EVENT_ID.DOCUMENT) {
      if (at > 0) writer.refuseSecondDocument(startOfSecond(masked.structure, writer.cursor));
    } else writeOther(event, writer);
  }
}

function writeOther(event: Event, writer: TreeWriter): void {
  switch (event.type) {
    case EVENT_ID.MAPPING:
      writer.open(NodeKind.mapping, event.style === COLLECTION_STYLE.FLOW, event.start, event);
      break;
    case EVENT_ID.SEQUENCE:
      writer.open(NodeKind.sequence, event.style === COLLECTION_STYLE.FLOW, event.start, event);
      break;
    case EVENT_ID.POP:
      // The pop of the document itself finds nothing open and does nothing.
      writer.close();
      break;
    case EVENT_ID.ALIAS:
      writer.alias(event.anchorStart - 1, event.anchorEnd);
  }
}

function writeScalar(event: ScalarEvent, masked: Masked, writer: TreeWriter): void {
  const { valueStart, valueEnd, style } = event;
  const { text } = masked.source;
  if (valueStart < 0) {
    writer.absent(event);
    return;
  }
  const value = event.fast ? text.slice(valueStart, valueEnd) : getScalarValue(text, event);
  if (style === SCALAR_STYLE.PLAIN) writer.scalar(ScalarStyle.plain, valueStart, valueEnd, value, event);
  else if (style === SCALAR_STYLE.SINGLE_QUOTED) {
    writer.scalar(ScalarStyle.single, valueStart - 1, valueEnd + 1, value, event);
  } else if (style === SCALAR_STYLE.DOUBLE_QUOTED) {
    writer.scalar(ScalarStyle.double, valueStart - 1, valueEnd + 1, value, event);
  } else {
    const ours = style === SCALAR_STYLE.LITERAL_BLOCK ? ScalarStyle.literal : ScalarStyle.folded;
    writer.blockScalar(ours, valueEnd, value, event);
  }
}

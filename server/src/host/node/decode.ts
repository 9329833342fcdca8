const STRICT = { fatal: true };

/**
 * Bytes as text, without the mark that some editors put before it. Where they are no UTF-8, the first wrong byte comes
 * out as a lone surrogate U+DC80 to U+DCFF, which no text holds: the engine reports it at its very place.
 */
export function decodeUtf8(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', STRICT).decode(bytes);
  } catch {
    const lenient = new TextDecoder('utf-8', { ignoreBOM: true });
    const wrong = firstWrongByte(bytes, lenient);
    const before = new TextDecoder().decode(bytes.subarray(0, wrong));
    const mark = String.fromCharCode(0xdc00 + (bytes[wrong] ?? 0x80));
    return before + mark + lenient.decode(bytes.subarray(wrong + 1));
  }
}

/** What was decoded rightly comes back as it was; the first difference is the first mistake. */
function firstWrongByte(bytes: Uint8Array, lenient: InstanceType<typeof TextDecoder>): number {
  const again = new TextEncoder().encode(lenient.decode(bytes));
  const at = bytes.findIndex((byte, index) => byte !== again[index]);
  return at < 0 ? bytes.length - 1 : at;
}

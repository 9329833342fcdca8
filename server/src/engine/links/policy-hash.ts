import { sha256 } from '@noble/hashes/sha2.js';
import { utf8ToBytes } from '@noble/hashes/utils.js';

/** The name by which a content security policy admits a text that stands in a page: `sha256-…`. */
export function policyHash(text: string): string {
  return `sha256-${base64Of(sha256(utf8ToBytes(text)))}`;
}

const BASE64 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** RFC 4648, 4. */
function base64Of(bytes: Uint8Array): string {
  const triples = Array.from({ length: Math.ceil(bytes.length / 3) }, (_, at) => bytes.slice(3 * at, 3 * at + 3));
  return triples.map(digitsOf).join('');
}

function digitsOf(triple: Uint8Array): string {
  const [first = 0, second = 0, third = 0] = triple;
  const bits = (first << 16) | (second << 8) | third;
  const digits = [18, 12, 6, 0].map((shift) => BASE64.charAt((bits >> shift) & 63));
  return digits
    .slice(0, triple.length + 1)
    .join('')
    .padEnd(4, '=');
}

const INTEGER = /^[-+]?[0-9]+$/;
const OCTAL = /^0o[0-7]+$/;
const HEXADECIMAL = /^0x[0-9a-fA-F]+$/;
const FLOAT = /^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$/;

/**
 * What a plain scalar means by the core schema of YAML 1.2 (section 10.3.2): null, a boolean, a number or else the text
 * itself. `yes`, `no`, `1_000` and `12:30` are texts there; `010` is the number ten.
 */
export function resolvePlain(text: string): null | boolean | number | string {
  switch (text) {
    case '':
    case '~':
    case 'null':
    case 'Null':
    case 'NULL':
      return null;
    case 'true':
    case 'True':
    case 'TRUE':
      return true;
    case 'false':
    case 'False':
    case 'FALSE':
      return false;
    default:
      return resolveNumber(text) ?? text;
  }
}

function resolveNumber(text: string): number | undefined {
  if (INTEGER.test(text) || FLOAT.test(text) || OCTAL.test(text) || HEXADECIMAL.test(text)) return Number(text);
  if (/^[-+]?\.(?:inf|Inf|INF)$/.test(text)) return text.startsWith('-') ? -Infinity : Infinity;
  return /^\.(?:nan|NaN|NAN)$/.test(text) ? Number.NaN : undefined;
}

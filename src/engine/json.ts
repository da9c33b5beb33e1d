/**
 * JSON that comes from outside. The engine reads any depth of lists in lists, but what walks over such a value afterwards
 * calls itself level by level and runs out of stack: so depth is bounded here, at the door.
 */

/** No file of ours is half as deep; a scenario in YAML may be 40 deep. */
export const MOST_JSON_DEPTH = 100;

/** @throws {SyntaxError} for what is no JSON, or deeper than {@link MOST_JSON_DEPTH} */
export function parsedJson(text: string): unknown {
  if (isTooDeep(text)) throw new SyntaxError(`lists and maps stand in each other more than ${MOST_JSON_DEPTH} deep`);
  return JSON.parse(text);
}

function isTooDeep(text: string): boolean {
  let depth = 0;
  for (let at = 0; at < text.length; at++) {
    const c = text[at];
    if (c === '"') at = endOfString(text, at);
    else if ((c === '[' || c === '{') && ++depth > MOST_JSON_DEPTH) return true;
    else if (c === ']' || c === '}') depth--;
  }
  return false;
}

/** Where the string that opens at `from` is closed; the end of the text where it isn't. */
function endOfString(text: string, from: number): number {
  for (let at = from + 1; at < text.length; at++) {
    const c = text[at];
    if (c === '\\') at++;
    else if (c === '"') return at;
  }
  return text.length;
}

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

/** The same where it doesn't matter what is wrong: undefined for what is no JSON, or too deep. */
export function jsonOrNothing(text: string): unknown {
  try {
    return parsedJson(text);
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

function isTooDeep(text: string): boolean {
  // Most texts have too few brackets to be deep, and to look for those alone is quick: a study has a million such lines.
  if (!hasMoreThan(text, '[', MOST_JSON_DEPTH / 2) && !hasMoreThan(text, '{', MOST_JSON_DEPTH / 2)) return false;
  let depth = 0;
  for (let at = 0; at < text.length; at++) {
    const c = text[at];
    if (c === '"') at = endOfString(text, at);
    else if ((c === '[' || c === '{') && ++depth > MOST_JSON_DEPTH) return true;
    else if (c === ']' || c === '}') depth--;
  }
  return false;
}

function hasMoreThan(text: string, mark: string, most: number): boolean {
  let at = -1;
  for (let n = 0; n <= most; n++) {
    at = text.indexOf(mark, at + 1);
    if (at < 0) return false;
  }
  return true;
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

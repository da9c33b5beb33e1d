/**
 * A command taken apart into words. No shell is behind it: `|`, `>`, `*`, `$` and `;` are characters like others, so that
 * a command does what it says and nothing else. Libraries that split commands give such characters a meaning.
 */

/**
 * Blanks separate words; single quotes keep everything, double quotes keep everything but `\"` and `\\`; outside of quotes
 * a backslash keeps the character after it.
 *
 * @returns null when a quote is left open or nothing is there
 * @example commandWords("./a.out 'my file'") // => ['./a.out', 'my file']
 */
export function commandWords(command: string): string[] | null {
  const WORD = /\s+|((?:[^\s'"\\]|\\.|'[^']*'|"(?:[^"\\]|\\.)*")+)/gsy;
  const words: string[] = [];
  let end = 0;
  for (const match of command.matchAll(WORD)) {
    end = match.index + match[0].length;
    if (match[1] !== undefined) words.push(unquoted(match[1]));
  }
  return end === command.length && words.length > 0 && words[0] !== '' ? words : null;
}

function unquoted(word: string): string {
  return word.replace(
    /'([^']*)'|"((?:[^"\\]|\\.)*)"|\\(.)/gs,
    (_, single: string | undefined, double: string | undefined, escaped: string | undefined) =>
      single ?? double?.replace(/\\(["\\])/g, '$1') ?? escaped ?? '',
  );
}

/** Text for a terminal: folded lines, and tables without lines. */

/** Words in lines of at most `width` characters, unless one word is longer; broken at blanks, not at no-break ones. */
export function foldedLines(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines;
}

const EDGES = ['top', 'top-mid', 'top-left', 'top-right', 'bottom', 'bottom-mid', 'bottom-left', 'bottom-right'];
const INNER = ['left', 'left-mid', 'mid', 'mid-mid', 'right', 'right-mid', 'middle'];
/** The characters of a table's borders: none. */
export const NO_BORDERS = Object.fromEntries([...EDGES, ...INNER].map((place) => [place, '']));

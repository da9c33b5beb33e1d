/** A sentence in indented lines of at most 100 characters, words whole. */
export function wrapped(text: string, indent = 4): string {
  const lines = [''];
  for (const word of text.split(' ')) {
    const line = lines[lines.length - 1] as string;
    if (line !== '' && indent + line.length + 1 + word.length > 100) lines.push(word);
    else lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
  }
  return lines.map((line) => ' '.repeat(indent) + line).join('\n');
}

/** Whole numbers as C99 source: initialisers of constant arrays, folded to short lines. */

const WIDTH = 96;

/** `static const TYPE NAME[n] = {…};` with four spaces of indent. `numbers` are written as they stand and must not be empty. */
export function cArray(type: string, name: string, numbers: readonly string[]): string {
  const lines: string[] = [];
  let line = '';
  for (const number of numbers) {
    const next = line === '' ? number : `${line}, ${number}`;
    if (line !== '' && next.length > WIDTH) {
      lines.push(`${line},`);
      line = number;
    } else line = next;
  }
  lines.push(line);
  return `static const ${type} ${name}[${numbers.length}] = {\n${lines.map((one) => `    ${one}\n`).join('')}};\n`;
}

/** An unsigned 32-bit constant that has its type on every compiler, one with 16-bit `int` too. */
export function c32(value: number): string {
  return `${value}UL`;
}

/** A signed one; no literal in C begins with a minus, so −2³¹ is not among them. */
export function cSigned32(value: number): string {
  return `${value}L`;
}

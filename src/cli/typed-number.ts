/** The number that an option's text is; NaN for what is none, and for nothing, which JavaScript takes for 0. */
export function typedNumber(text: string): number {
  return text.trim() === '' ? Number.NaN : Number(text);
}

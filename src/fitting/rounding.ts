/** Numbers as a standard error supports them. */

/** How many decimals a value with this standard error is worth: the error's first two digits; at most 9. */
export function decimalsOf(error: number | null): number {
  if (error === null || !Number.isFinite(error)) return 4;
  if (error <= 0) return 6;
  const first = Math.floor(Math.log10(error) + 1e-12);
  return Math.max(0, Math.min(9, 1 - first));
}

/** A value with decimals for its error; never a minus before 0. */
export function supported(value: number, error: number | null): string {
  const text = value.toFixed(decimalsOf(error));
  return Number(text) === 0 ? '0' : text;
}

/** Symmetric matrices of two or three rows: all that a fit of so few parameters needs. */

export type Matrix = readonly (readonly number[])[];

/**
 * Inverse of a symmetric positive matrix; null when it has none to working precision. Scaled to a unit diagonal first:
 * parameters of very different size are not nearly singular for that alone.
 */
export function inverse(matrix: Matrix): number[][] | null {
  const n = matrix.length;
  const scale = matrix.map((row, i) => Math.sqrt(row[i]!));
  if (!scale.every((s) => s > 0 && Number.isFinite(s))) return null;
  const rows = matrix.map((row, i) => [
    ...row.map((x, j) => x / (scale[i]! * scale[j]!)),
    ...row.map((_, j) => (i === j ? 1 : 0)),
  ]);
  for (let at = 0; at < n; at++) {
    // Positive and symmetric: no exchange of rows is needed.
    const pivot = rows[at]![at]!;
    if (!(pivot > 1e-13)) return null;
    rows[at] = rows[at]!.map((x) => x / pivot);
    for (let i = 0; i < n; i++) {
      if (i === at) continue;
      const factor = rows[i]![at]!;
      rows[i] = rows[i]!.map((x, j) => x - factor * rows[at]![j]!);
    }
  }
  return rows.map((row, i) => row.slice(n).map((x, j) => x / (scale[i]! * scale[j]!)));
}

export function correlations(covariance: Matrix): number[][] {
  return covariance.map((row, i) => row.map((x, j) => x / Math.sqrt(covariance[i]![i]! * covariance[j]![j]!)));
}

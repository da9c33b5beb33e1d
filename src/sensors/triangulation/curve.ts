/**
 * The curve of a triangulation ranger: volts are base + gain / (distance + offset).
 *
 * By similar triangles the spot stands on the detector at f·B/d; the output is affine in that place, and an origin that
 * isn't the front face turns d into d + offset. Nearer than the fold the spot leaves the detector, and the output falls
 * again: taken as straight down to the base at no distance at all.
 */
export interface Curve {
  readonly gain_v_m: number;
  readonly offset_m: number;
  readonly base_v: number;
}

/** Volts above the base, over the gain: place of the spot on the detector, 1/m. */
export function placeOf({ offset_m }: Curve, fold_m: number, distance_m: number): number {
  if (distance_m >= fold_m) return 1 / (distance_m + offset_m);
  return distance_m / (fold_m * (fold_m + offset_m));
}

/** Distance at which the curve without a fold has a place; Infinity for none. */
export function distanceAt({ offset_m }: Curve, place: number): number {
  return place > 0 ? 1 / place - offset_m : Infinity;
}

export function voltsAt({ gain_v_m, offset_m, base_v }: Curve, distance_m: number): number {
  return distance_m === Infinity ? base_v : base_v + gain_v_m / (distance_m + offset_m);
}

/** How fast the volts fall with distance, V/m, as a positive number: gain / (distance + offset)². */
export function slopeAt({ gain_v_m, offset_m }: Curve, distance_m: number): number {
  const d = distance_m + offset_m;
  return gain_v_m / (d * d);
}

/**
 * How much of a sound a capsule throws back: target strength 10·lg σ of convex rigid bodies large against the wave,
 * σ in m² (formulas as in Urick, Principles of Underwater Sound, from memory; convex surface: course notes after Urick).
 *
 * - Long cylinder, broadside: a·R/2 while R < L²/λ; of length L from further away a·L²/(2λ).
 * - Both are a·ℓ²/(2λ), where ℓ is what lies on the cylinder of its first Fresnel length √(λR), centred where the
 *   perpendicular from the ranger falls. So ℓ also fades out towards an end: half of it there (−6 dB, as behind any
 *   straight edge), nothing half a Fresnel length further on.
 * - End cap, a sphere: a²/4. The louder of cylinder and cap counts, so that a limb that tilts passes evenly from one to
 *   the other.
 * - Nothing convex throws back more than a flat wall, σ = R²/4: this bounds the far-field formulas close by.
 *
 * For a point source and a large cylinder rays give 10·lg((R + a)/R) + 3 dB less than a·R/2. Left as the handbook has
 * it; clothing is less well known than that.
 */

/**
 * Length of a cylinder's axis within the first Fresnel length around a point of it, metres.
 *
 * @param t_m where the perpendicular falls, from one end @param length_m of the axis @param lambdaR_m2 wavelength times distance
 */
export function visibleLength(t_m: number, length_m: number, lambdaR_m2: number): number {
  const half = Math.sqrt(lambdaR_m2) / 2;
  const from = t_m > half ? t_m - half : 0;
  const to = t_m + half < length_m ? t_m + half : length_m;
  return to > from ? to - from : 0;
}

/** σ of a capsule, m². @param visible_m see {@link visibleLength} */
export function targetArea(radius_m: number, visible_m: number, distance_m: number, wavelength_m: number): number {
  const cap = (radius_m * radius_m) / 4;
  const cylinder = (radius_m * visible_m * visible_m) / (2 * wavelength_m);
  const wall = (distance_m * distance_m) / 4;
  const convex = cylinder > cap ? cylinder : cap;
  return convex < wall ? convex : wall;
}

/** Most that σ of a capsule of a radius can be, m². */
export function loudestArea(radius_m: number, distance_m: number): number {
  const cap = (radius_m * radius_m) / 4;
  const cylinder = (radius_m * distance_m) / 2;
  const wall = (distance_m * distance_m) / 4;
  const convex = cylinder > cap ? cylinder : cap;
  return convex < wall ? convex : wall;
}

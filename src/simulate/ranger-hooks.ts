/** What is told of the rangers of a house. */
export interface RangerHooks {
  edge(door: number, beam: number, time_us: number, level: 0 | 1): void;
  /** @param near whether it is near enough to count as broken at rest */
  reading?(door: number, beam: number, time_us: number, distance_um: number, near: boolean): void;
  /**
   * A reading that a stray, a drop-out, a burst of another or rare noise made what it is.
   *
   * @param lasts whether the beam's level agrees with it
   */
  befallen?(door: number, beam: number, time_us: number, distance_um: number, lasts: boolean): void;
}

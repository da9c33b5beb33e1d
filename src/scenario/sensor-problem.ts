/** What can be wrong between keys of sensors, of how they are put up, and of what reads them. Part of issue.ts. */
export type SensorProblem =
  | { readonly code: 'barrier_mount'; readonly mount: string }
  /** The key exists, but sensors of this kind have no use for it. */
  | { readonly code: 'not_for'; readonly key: string; readonly kind: string }
  | { readonly code: 'across_mount'; readonly mount: string }
  | { readonly code: 'outside_opening'; readonly across_m: number; readonly width_m: number }
  | { readonly code: 'faces_too_far'; readonly spacing_m: number; readonly turn_deg: number; readonly most_deg: number }
  | { readonly code: 'even_median'; readonly found: number }
  | {
      readonly code: 'not_below';
      readonly low_key: string;
      readonly low: number;
      readonly high_key: string;
      readonly high: number;
    }
  | { readonly code: 'needs_key'; readonly what: string; readonly key: string }
  | { readonly code: 'table_order' }
  | {
      readonly code: 'time_out_short';
      readonly time_out_ms: number;
      readonly range_m: number;
      readonly least_ms: number;
    }
  /** A beam once broken hardly clears again: `room_m` is what hysteresis has to the background, or to the frame. */
  | {
      readonly code: 'clears_behind';
      /** DOOR.BEAM */
      readonly beam: string;
      readonly hysteresis_m: number;
      readonly room_m: number;
      readonly learnt: boolean;
    }
  | { readonly code: 'cycle_or_wait' }
  | { readonly code: 'twice_in_turn'; readonly beam: string }
  | { readonly code: 'turn_barrier'; readonly beam: string }
  | { readonly code: 'not_its_beam'; readonly beam: string; readonly controller: string; readonly other: string }
  | { readonly code: 'pin_twice'; readonly pin: number; readonly controller: string; readonly other: string }
  | { readonly code: 'pin_count'; readonly kind: string; readonly needs: number; readonly found: number }
  | {
      readonly code: 'too_few_pins';
      readonly controller: string;
      readonly what: 'digital pins' | 'analogue inputs';
      readonly needs: number;
      readonly found: number;
      /** Who needs them: `2 of ultrasonic-ranger take 4`. */
      readonly by: readonly string[];
    };

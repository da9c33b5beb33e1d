/** What can be wrong with the plan of a house. Part of issue.ts. */

/** A room of the house and how far a place is from its nearest wall. */
interface Away {
  readonly room: string;
  readonly away_m: number;
}

export type PlanProblem =
  /** A door that is not in the walls of what it joins. */
  | { readonly code: 'off_wall'; readonly rooms: readonly Away[]; readonly most_m: number }
  /** Stairs whose foot and head are both away from the rooms they join. */
  | { readonly code: 'off_stairs'; readonly rooms: readonly Away[]; readonly most_m: number }
  /** Two rooms on one floor; `x_m` by `y_m` is what they share. */
  | { readonly code: 'overlap'; readonly other: string; readonly x_m: number; readonly y_m: number }
  | { readonly code: 'same_storey'; readonly storey: number }
  | { readonly code: 'other_storey'; readonly way: string; readonly storeys: readonly [number, number] }
  | { readonly code: 'same_door'; readonly other: string }
  | { readonly code: 'no_door'; readonly room: string }
  | { readonly code: 'unreachable'; readonly room: string }
  | { readonly code: 'no_way_out' }
  /** A door whose forward does not lead from its first room to its second. */
  | { readonly code: 'faces_wrong'; readonly facing_deg: number; readonly should_deg: number }
  | { readonly code: 'off_plan'; readonly room: string | null; readonly away_m: number; readonly most_m: number };

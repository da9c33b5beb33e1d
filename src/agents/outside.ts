/** Index of the outside among a plan’s rooms: it is unbounded and has no count. */
export const OUTSIDE = -1;

/** Fewer replicates than this leave an interval itself uncertain: it rests on their being spread about normally. An assumption of ours. */
export const FEW_REPLICATES = 10;

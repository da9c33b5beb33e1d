/** What deserves a word about rangers; a code with the numbers it rests on. */
import type { Share } from './weighted.js';
import type { Background, HeardFacts, PairScanFacts, SeenFacts, StretchedFacts } from './ranger-fact-types.js';

export type RangerCaution =
  | ({ readonly code: 'scan_stretched'; readonly controller: string; readonly cycle_ms: number } & StretchedFacts)
  | {
      readonly code: 'scan_slow';
      readonly first: string;
      readonly second: string;
      readonly spacing_m: number;
      readonly scan: PairScanFacts;
    }
  | {
      readonly code: 'cones_overlap';
      readonly first: string;
      readonly second: string;
      readonly spacing_m: number;
      readonly overlap: Share;
      readonly same_scan: Share;
    }
  | { readonly code: 'wrong_order'; readonly first: string; readonly second: string; readonly wrong: Share }
  | {
      readonly code: 'no_background';
      readonly beams: readonly string[];
      readonly background: Exclude<Background, 'seen'>;
      readonly axis_m: number;
      readonly nearest_m: number;
      readonly range_m: number;
    }
  | {
      readonly code: 'idle_broken';
      readonly beams: readonly string[];
      readonly point_m: number;
      readonly learnt: boolean;
      /** Null: it reads nothing, and that means broken. */
      readonly reads_m: number | null;
    }
  | {
      readonly code: 'never_broken';
      readonly beams: readonly string[];
      readonly point_m: number;
      readonly learnt: boolean;
      readonly nearest_m: number;
    }
  | {
      readonly code: 'margin_noise';
      readonly beams: readonly string[];
      readonly margin_m: number;
      readonly learnt: boolean;
      readonly noise_m: number;
      readonly per_hour: number;
    }
  | {
      readonly code: 'near_gap';
      readonly beams: readonly string[];
      readonly gap_m: number;
      readonly nearest_m: number;
    }
  | {
      readonly code: 'heard';
      /** The worst of its kind. */
      readonly heard: HeardFacts;
      /** How many further pairs of the same kind there are. */
      readonly others: number;
      readonly idle_m: number | null;
    }
  | {
      readonly code: 'temperature';
      readonly beams: readonly string[];
      readonly real_c: number;
      readonly assumed_c: number;
      readonly off_m: number;
      readonly margin_m: number;
    }
  | {
      readonly code: 'unseen';
      readonly beams: readonly string[];
      readonly interval_ms: number;
      readonly crossings: Omit<SeenFacts, 'lost'>;
    }
  | {
      readonly code: 'flicker';
      readonly beam: string;
      /** Per crossing that breaks it at all. */
      readonly breaks: number;
      readonly interval_ms: number;
    }
  | { readonly code: 'echo_lost'; readonly beam: string; readonly lost: Share };

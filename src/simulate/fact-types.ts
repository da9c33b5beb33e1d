/** What follows from a scenario before anything is counted: facts about one door, as data. */
import type { Mount } from '../geometry/schema.js';
import type { Part } from '../score/pictures.js';
import type { RangerCaution } from './ranger-caution-types.js';
import type { DoorRangerFacts, PairScanFacts, RangerFacts, RangerPairFacts } from './ranger-fact-types.js';
import type { Share } from './weighted.js';

export type BodyPart = Part;

/** Whose standing height is above a beam. */
export interface Reach {
  /** `adults`, `children`, or the name of a walker of the mix. */
  readonly who: string;
  /** Youngest and oldest age in whole years, both included; null for a walker of the mix. */
  readonly ages_y: readonly [number, number] | null;
  readonly above: Share;
}

/** What a beam meets of people of middling stature who go straight through. */
export interface Met {
  readonly who: 'adult' | 'child';
  readonly stature_m: number;
  /** Parts by their share of the time in which the beam is broken, largest first; several at once count each. */
  readonly parts: readonly { readonly part: BodyPart; readonly share: number }[];
}

export interface BeamFacts {
  readonly beam: string;
  readonly mount: Mount;
  /** Half-way along the beam, or along a ranger's axis in the opening. */
  readonly height_m: number;
  /** Both ends are at one height. */
  readonly level: boolean;
  /** None for a ranger that looks down. */
  readonly reach: readonly Reach[];
  readonly met: readonly Met[];
  /** Of the mix's walkers going through alone: how many break the beam at all; a ranger's, as it is really read. */
  readonly broken: Share;
  /** Per lone crossing of the mix's walkers: true breaks before any electronics; a ranger's, as it is really read. */
  readonly breaks_per_crossing: number;
  /** Of a barrier; null for a ranger. */
  readonly response: ResponseFacts | null;
  /** Of a ranger; null for a barrier. */
  readonly ranger: RangerFacts | null;
}

/** How a barrier's response time compares with what it must see. Of the mix's walkers going through alone. */
export interface ResponseFacts {
  readonly response_ms: number;
  /** 2.5th percentile over crossings of their shortest break; null if nobody breaks the beam. */
  readonly shortest_break_ms: number | null;
  /** Crossings with a break shorter than the response time, which goes unseen. */
  readonly unseen: Share;
  /** 2.5th percentile over crossings with two breaks or more of their shortest gap; null if there is none. */
  readonly shortest_gap_ms: number | null;
  /** Crossings with a gap shorter than the response time, which is bridged. */
  readonly bridged: Share;
}

/** Two beams that follow each other along the walk. */
export interface SpacingFacts {
  readonly first: string;
  readonly second: string;
  /** Of barriers half-way across the opening, of rangers from sensor to sensor. */
  readonly spacing_m: number;
  /** 97.5th and 2.5th percentile of the walkers' undisturbed speeds. */
  readonly fastest_mps: number;
  readonly slowest_mps: number;
  /** Spacing over speed: how long the first beam alone is broken, if the body is deeper than the spacing. */
  readonly fastest_ms: number;
  readonly slowest_ms: number;
  readonly speeds_n: number;
  /** Way walked while the first beam is broken, its longest break: 2.5th, 50th and 97.5th percentile; null if never. */
  readonly depth_m: { readonly low: number; readonly middle: number; readonly high: number } | null;
  /** Of those who break both: how many have a depth smaller than the spacing. */
  readonly shallower: Share;
  /** Of those who break both: how many never break both at one moment. */
  readonly never_together: Share;
  /** With a polled controller; null when inputs are wired to interrupts, and of two rangers. */
  readonly poll: PollFacts | null;
  /** With a ranger among them; null of two barriers. */
  readonly scan: PairScanFacts | null;
  /** Of two rangers; null otherwise, and where one is broken all the time. */
  readonly rangers: RangerPairFacts | null;
}

/** A polled pair is sure to show the state "first broken, second clear" only if the interval is at most spacing / speed. */
export interface PollFacts {
  readonly poll_ms: number;
  /** Up to this speed it is sure. */
  readonly sure_to_mps: number;
  /** Walkers of the mix faster than that. */
  readonly unsure: Share;
}

export interface OpeningFacts {
  readonly width_m: number;
  /** Pairs of adults who fit side by side. */
  readonly abreast: Share;
  /** Adults who turn their shoulders to go through. */
  readonly turned: Share;
}

export interface ZoneFacts {
  readonly zone_m: number;
  /** Outermost barrier and the longest reach of a limb; null without a barrier. */
  readonly least_m: number | null;
  /** Lone crossings in which a break is cut off at an end of the zone: none should be. */
  readonly cut: Share;
}

/** What deserves a word; a code with the numbers it rests on. */
export type FactCaution =
  | {
      readonly code: 'too_high';
      readonly beams: readonly string[];
      readonly height_m: number;
      readonly unbroken: Share;
    }
  | { readonly code: 'legs'; readonly beams: readonly string[]; readonly height_m: number; readonly breaks: number }
  | {
      readonly code: 'too_far';
      readonly first: string;
      readonly second: string;
      readonly spacing_m: number;
      readonly apart: Share;
    }
  | {
      readonly code: 'too_close';
      readonly first: string;
      readonly second: string;
      readonly spacing_m: number;
      readonly diameter_m: number;
    }
  | { readonly code: 'poll_slow'; readonly first: string; readonly second: string; readonly poll: PollFacts }
  | {
      readonly code: 'response_slow';
      readonly beams: readonly string[];
      readonly response_ms: number;
      readonly unseen: Share;
    }
  | { readonly code: 'interference'; readonly emitter: string; readonly receiver: string }
  | { readonly code: 'narrow'; readonly width_m: number; readonly turned: Share }
  | { readonly code: 'not_abreast'; readonly width_m: number; readonly abreast: Share }
  | { readonly code: 'zone_cut'; readonly zone_m: number; readonly cut: Share }
  | RangerCaution;

/** What follows from a doorway and its beams before anybody walks. */
export interface DoorFacts {
  readonly door: string;
  readonly beams: readonly BeamFacts[];
  readonly spacings: readonly SpacingFacts[];
  readonly opening: OpeningFacts;
  readonly zone: ZoneFacts;
  /** Emitters that reach another beam's receiver. */
  readonly interference: readonly { readonly emitter: string; readonly receiver: string }[];
  /** Null without rangers. */
  readonly rangers: DoorRangerFacts | null;
  readonly cautions: readonly FactCaution[];
}

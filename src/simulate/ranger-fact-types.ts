/** What follows for rangers before anything is counted: facts about one door, as data. */
import type { Share } from './weighted.js';

/** How often something is read: with the idle door's echo, and when every turn takes as long as it can. */
export interface Interval {
  readonly idle_ms: number;
  readonly busiest_ms: number;
}

/** The round of a controller. */
export interface ScanFacts {
  readonly controller: string;
  /** Rangers read in a round, of all its doors, and turns they take. */
  readonly rangers: number;
  readonly turns: number;
  /** From the start of a round to the start of the next. */
  readonly round: Interval;
  readonly per_round_ms: number;
  /** From the start of one turn to the next if nothing takes longer; null when turns follow the echo. */
  readonly cycle_ms: number | null;
  /** The turn that needs most beyond its cycle; null when none does, even at its longest. */
  readonly stretched: StretchedFacts | null;
}

/** A turn that its cycle is too short for. */
export interface StretchedFacts {
  /** Rangers read in it, as DOOR.BEAM. */
  readonly turn: readonly string[];
  /** While the door is idle, too; false when only a time-out stretches it. */
  readonly always: boolean;
  /** At the idle door if it is stretched there, else at its longest. */
  readonly needs_ms: number;
  readonly reading_ms: number;
  readonly loop_ms: number;
  readonly serial_ms: number;
}

/**
 * What an idle door gives for a background: its echo; nothing, as the frame is beyond the range, nearer than the blind
 * zone or fold, or within both but too faint.
 */
export type Background = 'seen' | 'beyond' | 'too-near' | 'faint';

/** One ranger. */
export interface RangerFacts {
  /** How often it is read: the longest time from one reading to the next. */
  readonly interval: Interval;
  /** Along its axis to where that leaves the opening. */
  readonly axis_m: number;
  /** The blind zone or fold, and the range. */
  readonly nearest_m: number;
  readonly range_m: number;
  readonly background: Background;
  /** What it reads of the idle door, free of noise, and what is truly there; null without echo. */
  readonly idle: { readonly reads_m: number; readonly true_m: number } | null;
  /** Broken while a reading is nearer than this; learnt when it goes by the background. */
  readonly point_m: number;
  readonly learnt: boolean;
  /** The idle door is broken. */
  readonly always_broken: boolean;
  /** Three standard deviations of the idle door's reading; null without echo. */
  readonly noise_m: number | null;
  /** Share of idle readings that noise alone takes past the switching point. */
  readonly noise_breaks: number;
  /** How often noise alone breaks the idle door's beam, median and samples in a row taken into account. */
  readonly noise_breaks_per_hour: number;
  /** Distances along its axis between which a thin upright rod breaks the beam; null when none does. */
  readonly sight_m: readonly [number, number] | null;
  /** Real and assumed temperature of the air, and what a reading of 1 m is off by; null for what makes no sound. */
  readonly air: { readonly real_c: number; readonly assumed_c: number; readonly off_per_m: number } | null;
  readonly crossings: SeenFacts;
}

/** What it sees of the mix's walkers going through alone, free of noise. */
export interface SeenFacts {
  /** Lone crossings in which it would read nearer than its switching point at some instant. */
  readonly ever: Share;
  /** The same at its real interval, all phases alike. */
  readonly read: Share;
  /** Lone crossings in which its switching says broken: median, samples and all. */
  readonly broken: Share;
  /** Readings without echo, of those while somebody stands in its axis. */
  readonly lost: Share;
}

/** Two rangers that follow each other along the walk. */
export interface RangerPairFacts {
  /** Share of the width at which a thin upright rod half-way between them breaks both at once. */
  readonly overlap: Share;
  /** From and to where along the walk a rod half-way across breaks either; null when it breaks none. */
  readonly sight_m: readonly [readonly [number, number] | null, readonly [number, number] | null];
  /** Of lone crossings that both see: those in which they begin to within one interval of each other. */
  readonly same_scan: Share;
  /** Of those: in which the one further on begins to first. */
  readonly wrong_order: Share;
}

/** How often two beams are read, when a ranger is one of them; and up to which speed that is sure to tell the order. */
export interface PairScanFacts {
  /** The longer of both. */
  readonly interval: Interval;
  /** Spacing over the idle interval. */
  readonly sure_to_mps: number;
  /** Walkers of the mix faster than that. */
  readonly unsure: Share;
}

/** One ranger hears another's burst, or an earlier one of its own, while the door is idle. */
export interface HeardFacts {
  readonly listener: string;
  /** As DOOR.BEAM. */
  readonly source: string;
  readonly when: 'same turn' | 'earlier turn' | 'other controller';
  /** How long before the listener's turn it was sent, and the way it comes; null when rounds drift against each other. */
  readonly earlier_ms: number | null;
  readonly way_m: number;
  /** What it is taken for: metres of reading. With other controllers the nearest possible. */
  readonly reads_m: number;
  /** Nearer than its own echo; and nearer than its switching point. */
  readonly nearer: boolean;
  readonly breaks: boolean;
  /** Share of idle readings it breaks. */
  readonly share: number;
  /** Most readings hear it, and it is learnt for the background: who is further away isn't seen. */
  readonly background: boolean;
}

/** A door's rangers. */
export interface DoorRangerFacts {
  readonly scan: ScanFacts;
  readonly heard: readonly HeardFacts[];
}

/** Whoever moves about the house: where they are, and what they mean to do next. */

/** Where to be, and until when. */
export interface Stay {
  /** Room, or OUTSIDE. */
  readonly room: number;
  readonly until_us: number;
  readonly asleep: boolean;
}

export interface Mind {
  /** Where to be from now on; null: leave the house for good. */
  next(time_us: number, room: number): Stay | null;
  /** Whether they can be asked along, or to carry something. */
  isFree(time_us: number): boolean;
  /** Whether the day has them outside: whoever is out with others then stays out when the others go home. */
  isAway(time_us: number): boolean;
  /** Somebody brings them home: what has them outside just then is over. */
  fetched(time_us: number): void;
}

export interface Mover {
  /** Number of the body in its replicate. */
  readonly number: number;
  /** Name of the walker, without what they carry. */
  readonly name: string;
  readonly is: 'resident' | 'guest' | 'pet' | 'robot';
  /** Old enough to look after an infant. */
  readonly carer: boolean;
  readonly mind: Mind;
  /** What they bring along and take away again, from door to room. */
  readonly luggage: string | null;
  /** Whom they came with. */
  readonly group: readonly Mover[];
  /** Room, or OUTSIDE; on the way, the one they left last. */
  room: number;
  /** On the way, or waiting for others: not to be asked. */
  busy: boolean;
  /** On the way out of the house. */
  leaving: boolean;
  asleep: boolean;
  /** Grows with every new intention: what was meant before is void. */
  round: number;
  /** Visits made: each has draws of its own. */
  visits: number;
}

/** Somebody who is carried. */
export interface Infant {
  readonly name: string;
  readonly mind: Mind;
  readonly bedroom: number;
  room: number;
  asleep: boolean;
  /** On somebody's arm just now: nobody else can take it. */
  carried: boolean;
  /** Who has it with them outside. */
  keeper: Mover | null;
}

/** People, pets or a robot on the way through the house together. */
export interface Trip {
  /** The first leads. */
  readonly members: readonly Mover[];
  /** Doors in order. */
  readonly way: readonly number[];
  readonly goal: number;
  /** What the leader carries or pushes. */
  readonly load: string | null;
  readonly infant: Infant | null;
  /** It begins or ends outside. */
  readonly outdoors: boolean;
  /** They walk in twos, side by side, where a door is wide enough. */
  readonly abreast: boolean;
  /** Pets from the second member on, at heel. */
  readonly atHeel: boolean;
  /** Doors passed. */
  at: number;
  here: number;
  /** What the leader does at the first door before going through. */
  manner: 'turn-back' | 'linger' | 'reach' | null;
  /** Called once for each member when they are there. */
  readonly arrived: (member: Mover, time_us: number) => void;
}

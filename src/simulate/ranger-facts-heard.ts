/** Which bursts reach another ranger's ear while the door is idle, and what they are taken for. */
import type { BurstSource, Ear } from '../sensors/ranger.js';
import { NO_ECHO, soundPerMetre_us } from '../sensors/ranger.js';
import { NOBODY } from '../sensors/scan/slot.js';
import type { HeardFacts } from './ranger-fact-types.js';
import { breaksBeam, type Placed, type PlacedHouse } from './ranger-facts-house.js';
import type { RoundTimes } from './ranger-facts-scan.js';
import { timesOf } from './ranger-facts-scan.js';

interface Hearer {
  readonly listener: Placed;
  readonly ear: Ear;
  readonly source: Placed;
  readonly burst: BurstSource;
}

/** What one ranger hears, of others and of its own earlier bursts; for each source the nearest it is taken for. */
export function heardBy(house: PlacedHouse, times: readonly RoundTimes[], listener: Placed): HeardFacts[] {
  const { ear } = listener.ranger;
  if (ear === null) return [];
  return house.rangers.flatMap((source) => {
    if (source.ranger.ear === null) return [];
    const burst = house.reaches(listener.slot, source.slot);
    if (burst === null || ear.farthest_m(burst) === 0) return [];
    const hearer: Hearer = { listener, ear, source, burst };
    const own = timesOf(times, listener);
    const its = timesOf(times, source);
    const heard = own === its ? heardInStep(hearer, own) : heardAdrift(hearer, its);
    return heard === null ? [] : learntFrom(listener, heard);
  });
}

/** A background is the median of the first readings: what most of them hear never breaks the beam, it hides what is behind. */
function learntFrom({ mounted }: Placed, heard: HeardFacts): HeardFacts {
  const learns = mounted.sensor.switching.nearer_than_m === undefined;
  if (!learns || heard.share <= MOST) return heard;
  return { ...heard, breaks: false, share: 0, background: true };
}
const MOST = 0.5;

/** Of one controller all bursts come at fixed times before a turn; the idle door's rounds are all alike. */
function heardInStep(hearer: Hearer, { round, idle }: RoundTimes): HeardFacts | null {
  const { listener, ear, source, burst } = hearer;
  const starts_us: number[] = [];
  let at_us = 0;
  for (const { length_us } of idle.turns) {
    starts_us.push(at_us);
    at_us += length_us;
  }
  const turnsOf = ({ door, beam }: Placed): number[] =>
    round.turns.flatMap((turn, i) => (turn.some((one) => one.door === door && one.beam === beam) ? [i] : []));
  const stays_us = ear.farthest_m(burst) * soundPerMetre_us(ear);
  let nearest: HeardFacts | null = null;
  let broken = 0;
  const own = turnsOf(listener);
  for (const turn of own) {
    let breaks = false;
    for (const its of turnsOf(source)) {
      let age_us = starts_us[turn]! - starts_us[its]!;
      if (age_us < 0) age_us += idle.round_us;
      for (; age_us <= stays_us; age_us += idle.round_us) {
        // Its own burst of this turn is what it sees anyhow.
        if (source === listener && age_us === 0) continue;
        const heard = earliest(hearer, age_us);
        if (heard === null) continue;
        breaks ||= heard.breaks;
        if (nearest === null || heard.reads_m < nearest.reads_m)
          nearest = { ...heard, when: age_us === 0 ? 'same turn' : 'earlier turn', earlier_ms: age_us / 1000 };
      }
    }
    if (breaks) broken++;
  }
  return nearest && { ...nearest, share: broken / own.length };
}

/** The first arrival a listener is open for, of a burst sent so long before its turn. */
function earliest({ listener, ear, source, burst }: Hearer, age_us: number): HeardFacts | null {
  const [from_us, to_us] = ear.window_us;
  const per_us = soundPerMetre_us(ear);
  const ways: number[] = [];
  ear.arrivals(burst, NOBODY, (age_us + from_us) / per_us, (age_us + to_us) / per_us, ways);
  if (ways.length === 0) return null;
  const way_m = Math.min(...ways);
  const seen_m = ear.seenAfter(way_m * per_us - age_us);
  return taken(listener, source, way_m, seen_m);
}

/** Two controllers' rounds drift against each other: a burst comes at any time after a turn's start, all alike. */
function heardAdrift({ listener, ear, source, burst }: Hearer, { round, idle }: RoundTimes): HeardFacts | null {
  const ways: number[] = [];
  ear.arrivals(burst, NOBODY, 0, ear.farthest_m(burst), ways);
  if (ways.length === 0) return null;
  const [from_us, to_us] = ear.window_us;
  const nearest = taken(listener, source, Math.min(...ways), ear.seenAfter(from_us));
  // From the end of its ringing to where its own echo comes, or where an arrival breaks the beam no more.
  let breaking_us = 0;
  for (let step = 0; step < STEPS; step++) {
    const delay_us = from_us + ((step + 0.5) * (to_us - from_us)) / STEPS;
    const seen_m = ear.seenAfter(delay_us);
    if (seen_m < listener.idle_m && breaksBeam(listener, listener.ranger.reading(seen_m, 0.5)))
      breaking_us += (to_us - from_us) / STEPS;
  }
  const bursts = round.turns.flat().filter(({ door, beam }) => door === source.door && beam === source.beam).length;
  const share = Math.min(1, (ways.length * bursts * breaking_us) / idle.round_us);
  return { ...nearest, when: 'other controller', earlier_ms: null, breaks: share > 0, share };
}
const STEPS = 400;

function taken(listener: Placed, source: Placed, way_m: number, seen_m: number): HeardFacts {
  const reading_um = listener.ranger.reading(seen_m, 0.5);
  const nearer = seen_m < listener.idle_m;
  const breaks = nearer && breaksBeam(listener, reading_um);
  return {
    listener: listener.name,
    source: source.name,
    when: 'same turn',
    earlier_ms: 0,
    way_m,
    reads_m: reading_um === NO_ECHO ? seen_m : reading_um / 1e6,
    nearer,
    breaks,
    share: breaks ? 1 : 0,
    background: false,
  };
}

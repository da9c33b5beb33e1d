/** Parties through a door one after the other, so far apart that each is over and forgotten before the next. */
import type { AnyLogic } from '../counter/host.js';
import type { Direction } from '../counter/logic.js';
import type { Stream } from '../engine/stream.js';
import { MINUTE_US, SECOND_US } from '../engine/time.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { DoorRecord } from '../score/replicate-record.js';
import { DoorLine } from './door-line.js';
import { LAST_US, houseRangers } from './house-rangers.js';
import type { PartyAlone } from './parties.js';
import { retimed } from './parties.js';
import { placeRangers } from './ranger-facts-house.js';
import { intervalFacts, roundTimes } from './ranger-facts-scan.js';

/** Long enough after a visit for sensors, polling and scoring to be done with it. */
const REST_US = MINUTE_US;

/** How long after a visit nobody may come, so that the logic starts afresh, microseconds. */
export function restAfter_us(choice: Design['logics'][number], logic: AnyLogic): number {
  // How long a built-in logic may wait for something; a table says it in its latency.
  const timeout_ms = 'timeout_ms' in choice ? choice.timeout_ms : 0;
  const hold_off_ms = 'hold_off_ms' in choice ? choice.hold_off_ms : 0;
  return REST_US + logic.latency_us + 1000 * (timeout_ms + hold_off_ms);
}

/** Nobody comes before every ranger has learnt its background: a day's first minute is no matter of who comes. */
export function learningOf_us(design: Design): number {
  const house = placeRangers(design);
  const times = roundTimes(house);
  const waits_us = house.rangers.map((placed) => {
    const { nearer_than_m, learn_readings } = placed.mounted.sensor.switching;
    return nearer_than_m === undefined ? learn_readings * 1000 * intervalFacts(times, placed).busiest_ms + LAST_US : 0;
  });
  return Math.ceil(Math.max(0, ...waits_us));
}

/** The parties one after the other, the first after `from_us`. @param clock says by how much within a second each is late */
export function spacedOut(
  parties: readonly PartyAlone[],
  from_us: number,
  rest_us: number,
  clock: Stream,
): PartyAlone[] {
  let free_us = from_us;
  return parties.map((party, n) => {
    // The odd part of a second keeps visits out of step with any polling.
    const timed = retimed(party, free_us + Math.round(clock.at(n) * SECOND_US));
    free_us = (timed[timed.length - 1] as PartyAlone[number]).visit.leave_us + rest_us;
    return timed;
  });
}

/** Sends the parties, in order of entering, through one door of the design under one logic. @param tally hears of every tally, in order of time */
export function runAlone(
  design: Design,
  door: DesignDoor,
  logic: AnyLogic,
  parties: readonly PartyAlone[],
  noise: Stream,
  tally: (time_us: number, direction: Direction) => void = () => {},
): DoorRecord {
  const index = design.doors.indexOf(door);
  const rangers = houseRangers(design, noise, {
    edge: (at, beam, time_us, level) => {
      if (at === index) line.rangerEdge(beam, time_us, level);
    },
  });
  const line = new DoorLine(
    design,
    door,
    [logic],
    noise,
    { tally: (_, time_us, direction) => tally(time_us, direction) },
    rangers,
  );
  let end_us = 0;
  for (const party of parties) {
    for (const { visit, body, passage } of party) {
      rangers?.until(visit.enter_us);
      rangers?.visit(index, visit, body, passage);
      line.visit(visit, body, passage);
      end_us = Math.max(end_us, visit.leave_us);
    }
  }
  rangers?.until(line.end_us(end_us) + LAST_US);
  return line.close(end_us, 0);
}

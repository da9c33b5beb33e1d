/**
 * One passage under the magnifying glass: what truly happened, which beams it broke, what the sensors said, what the
 * controller read, and what each logic made of it, instant by instant.
 *
 * The party is alone in the doorway, so every edge is theirs (or the sensors' own noise). Time 0 is when the first of
 * the party enters the doorway zone.
 */
import type { MixKind } from '../agents/schema.js';
import { THROUGH_ONLY } from '../agents/schema.js';
import type { AnyLogic, DoorHost } from '../counter/host.js';
import { hostOf } from '../counter/host.js';
import { levelsOf } from '../counter/levels.js';
import type { Readings } from '../counter/logic.js';
import type { OutsideLogics } from '../counter/make-logic.js';
import { Stream } from '../engine/stream.js';
import { HOUR_US, SECOND_US } from '../engine/time.js';
import { nearest } from '../engine/nearest.js';
import { printable, quote } from '../engine/printable.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { DoorScorer } from '../score/door-scorer.js';
import type { Verdict } from '../score/match.js';
import { Inputs } from '../sensors/inputs.js';
import { axisPaths } from '../sensors/axis-paths.js';
import { NO_ECHO } from '../sensors/ranger.js';
import { isBarrier } from '../sensors/mounted.js';
import { Barriers } from '../sensors/light-barrier/barriers.js';
import { taught } from './doorway-learning.js';
import type { PartyAlone } from './parties.js';
import { partiesAlone, retimed } from './parties.js';
import { houseRangers } from './house-rangers.js';
import { logicsAt } from './logics-at.js';
import { controllerOf, hasRangers, mountedBeams, longestDelay } from './plan.js';
import { shadowOf } from './shadow.js';
import { walkersKnown } from './walkers-known.js';
import type {
  PassageChoice,
  TracedEdge,
  TracedReading,
  TracedInput,
  TracedStep,
  TracedLogic,
  PassageTrace,
} from './traced.js';
import { NoSuchPassage } from './traced.js';

/** Highest number of a passage. */
const MOST_PASSAGES = 10_000;
/** The clock before the party enters, so that polling and sensors are under way; rangers learn their background first. */
const BEFORE_US = 10 * SECOND_US;
const BEFORE_WITH_RANGERS_US = HOUR_US;
/** How long after the last one has left timers are still followed. */
const AFTER_US = 30 * SECOND_US;

/**
 * Traces one passage.
 *
 * @throws {NoSuchPassage} when the door, the walker or the number is not there, or what only goes through is to do more
 */
export function tracePassage(given: Design, choice: PassageChoice, outside?: OutsideLogics): PassageTrace {
  const design = taught(given, outside);
  const door = doorOf(design, choice.door);
  const { who, kind, direction = 'forward', number = 1 } = choice;
  checkWalker(design, who, kind);
  if (!Number.isInteger(number) || number < 1 || number > MOST_PASSAGES)
    throw new NoSuchPassage(`there is no passage number ${number}`, `numbers go from 1 to ${MOST_PASSAGES}`);
  const stream = Stream.root(String(design.seed)).child('passage', door.name, who, kind).nth(number);
  // A numbered stream per passage: number 9,000 costs as little as number 1.
  const sent = partiesAlone(
    door,
    design.walkers,
    { who, kind, forward_share: direction === 'forward' ? 1 : 0 },
    1,
    stream,
  );
  const before_us = hasRangers(design) ? BEFORE_WITH_RANGERS_US : BEFORE_US;
  const party = retimed(sent[0] as PartyAlone, before_us);
  return traceParty(design, door, { who, kind, direction, number }, party, before_us, { stream, outside });
}

function doorOf(design: Design, name: string | undefined): DesignDoor {
  const names = design.doors.map((door) => door.name);
  const door = design.doors.find((one) => name === undefined || one.name === name);
  if (!door) throw new NoSuchPassage(`there is no door ${quote(name ?? '')}`, didYouMean(name ?? '', names));
  return door;
}

function checkWalker(design: Design, who: string, kind: MixKind): void {
  const walkers = walkersKnown(design);
  const walker = walkers.get(who);
  if (!walker) throw new NoSuchPassage(`there is no walker ${quote(who)}`, didYouMean(who, [...walkers.keys()]));
  const rolls = THROUGH_ONLY[walker.kind];
  if (rolls !== undefined && kind !== 'through')
    throw new NoSuchPassage(`${quote(who)} is ${rolls}: it can only go through`, 'kind: through');
}

function didYouMean(name: string, known: readonly string[]): string {
  const close = nearest(name, known);
  return close === undefined
    ? `there is ${known.map((one) => printable(one)).join(', ')}`
    : `did you mean ${quote(close)}?`;
}

type Chosen = Required<Omit<PassageChoice, 'door'>>;

function traceParty(
  design: Design,
  door: DesignDoor,
  chosen: Chosen,
  party: PartyAlone,
  before_us: number,
  { stream, outside }: { readonly stream: Stream; readonly outside: OutsideLogics | undefined },
): PassageTrace {
  const mounted = mountedBeams(design, door);
  const barriers = new Barriers(mounted.filter(isBarrier), stream.child('door', door.name));
  const shadows = party.map(({ visit, body, passage }) => shadowOf(visit, body, passage, barriers.paths));
  const axes = axisPaths(mounted);
  const trueBreaks = party.map(({ visit, body, passage }) => shadowOf(visit, body, passage, axes).breaks);
  const controller = controllerOf(design, door);
  const edges: TracedEdge[] = [];
  const inputs: TracedInput[] = [];
  const readings: TracedReading[] = [];
  const index = design.doors.indexOf(door);
  const rangers = houseRangers(design, stream, {
    edge: (at, beam, time_us, level) => {
      if (at !== index) return;
      edges.push({ time_us: time_us - before_us, beam, level });
      reads.known({ time_us, beam, level });
    },
    reading: (at, beam, time_us, distance_um) => {
      if (at !== index) return;
      if (wanted) reads.reading(beam, time_us, distance_um);
      if (time_us >= before_us)
        readings.push({
          time_us: time_us - before_us,
          beam,
          distance_um: distance_um === NO_ECHO ? null : distance_um,
        });
    },
  });
  const delay_us = longestDelay(design, door, rangers);
  const logics = logicsAt(design, door, outside).map((logic) => new LogicTracer(logic, party, delay_us, before_us));
  const wanted = logics.some(({ wantsReadings }) => wantsReadings);
  const reads = new Inputs(controller, stream.child('controller', controller.name), (time, mask, before, read) => {
    const changed = mask !== before;
    if (changed) inputs.push({ time_us: time - before_us, levels: levelsOf(mask, door.beams.length) });
    for (const logic of logics) logic.input(time, mask, changed, read);
  });

  const end_us = Math.max(...party.map(({ visit }) => visit.leave_us)) + AFTER_US + delay_us;
  for (const { visit, body, passage } of party) {
    rangers?.until(visit.enter_us);
    rangers?.visit(index, visit, body, passage);
  }
  rangers?.until(end_us);
  barriers.episode(shadows);
  for (const edge of barriers.edgesUntil(end_us)) {
    edges.push({ ...edge, time_us: edge.time_us - before_us });
    reads.edge(edge);
  }
  reads.settle(end_us);
  edges.sort((a, b) => a.time_us - b.time_us || a.beam - b.beam);
  return {
    scenario: design.name,
    door: door.name,
    width_m: door.width_m,
    beams: mounted.map(({ name, line, sensor }) => ({
      name,
      kind: sensor.kind,
      height_m: (line.from.z + line.to.z) / 2,
      at_m: (line.from.y + line.to.y) / 2,
    })),
    poll_ms: controller.poll_ms ?? null,
    ...chosen,
    visits: party.map(({ visit, body }, i) => ({
      ...visit,
      number: i + 1,
      enter_us: visit.enter_us - before_us,
      cross_us: visit.cross_us === null ? null : visit.cross_us - before_us,
      leave_us: visit.leave_us - before_us,
      speed_mps: body.speed_mps,
      true_breaks_us: trueBreaks[i]!.map((breaks) => breaks.map((time) => time - before_us)),
    })),
    edges,
    readings,
    inputs,
    logics: logics.map((logic) => logic.close(end_us)),
  };
}

/** One logic with its own score of the party's visits. */
class LogicTracer {
  private readonly host: DoorHost;
  private readonly start: string;
  private readonly scorer: DoorScorer;
  private readonly steps: TracedStep[] = [];
  private readonly verdicts = new Map<number, Verdict>();
  private of_nobody = 0;

  constructor(
    private readonly logic: AnyLogic,
    private readonly party: PartyAlone,
    delay_us: number,
    private readonly before_us: number,
  ) {
    this.scorer = new DoorScorer(logic.latency_us + delay_us, {
      visit: (visit, verdict) => void this.verdicts.set(visit.body, { ...verdict }),
      nobody: () => void this.of_nobody++,
    });
    for (const { visit } of party) this.scorer.visit(visit);
    this.host = hostOf(logic, {
      onTally: (time_us, direction) => this.scorer.tally(time_us, direction),
      trace: ({ time_us, label, tallies, wake }) =>
        this.steps.push({ time_us: time_us - this.before_us, state: label, tallies, timeout: wake }),
    });
    this.start = this.host.snapshot().label;
  }

  get wantsReadings(): boolean {
    return this.logic.readings === true;
  }

  input(time_us: number, mask: number, changed: boolean, readings: Readings | undefined): void {
    if (changed || this.logic.readings === true) this.host.inputMask(time_us, mask, readings);
  }

  close(end_us: number): TracedLogic {
    this.host.finish(end_us + this.logic.latency_us);
    this.scorer.close();
    this.host.close();
    const none: Verdict = { forward: 0, backward: 0, nothing: 0, extra: 0, net: 0 };
    return {
      logic: this.logic.name,
      start: this.start,
      steps: this.steps,
      verdicts: this.party.map(({ visit }) => this.verdicts.get(visit.body) ?? none),
      of_nobody: this.of_nobody,
    };
  }
}

/** How a door's sensors are read, in words: wired or polled barriers, rangers in turns. */
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { Controller } from '../sensors/controllers/schema.js';
import { isBarrier } from '../sensors/mounted.js';
import { controllerOf, mountedBeams } from '../simulate/plan.js';
import { readingTimes, type RangerTimes } from './reading-times.js';
import { count, decimal, joined, named, plural } from './words.js';

/** More turns than these are counted, not named. */
const TURNS_NAMED = 8;

const ms = (us: number): string => `${decimal(us / 1000, 1)}\u00a0ms`;

/** 'The beams are wired to interrupts: every edge is seen.', 'Controller main reads the rangers in turns: …' */
export function readWords(design: Design, door: DesignDoor): string {
  const beams = mountedBeams(design, door);
  const barriers = beams.filter(isBarrier).length;
  const controller = controllerOf(design, door);
  return [
    ...(barriers > 0 ? [barrierWords(controller, barriers < beams.length)] : []),
    ...(barriers < beams.length ? rangerSentences(design, door, controller) : []),
  ].join(' ');
}

function barrierWords({ poll_ms }: Controller, rangersToo: boolean): string {
  const which = rangersToo ? 'light barriers' : 'beams';
  return poll_ms === undefined
    ? `The ${which} are wired to interrupts: every edge is seen.`
    : `The ${which} are read together every ${decimal(poll_ms)}\u00a0ms.`;
}

function rangerSentences(design: Design, door: DesignDoor, controller: Controller): string[] {
  const times = readingTimes(design, controller);
  const names = new Map(times.rangers.map((r) => [`${r.door}.${r.beam}`, nameOf(r, door)]));
  const turns = times.turns.map((turn) => joined(turn.map((key) => names.get(key) ?? key)));
  const several = turns.length > 1;
  const order =
    turns.length > TURNS_NAMED
      ? `reads ${plural(times.rangers.length, 'ranger')} in ${plural(turns.length, 'turn')}, again and again`
      : several
        ? `reads rangers in turns: ${turns.join(', then ')}, then again`
        : `reads ${turns.join('')} again and again`;
  const together = times.turns.some((turn) => turn.length > 1) ? ' Rangers of one turn send at the same moment.' : '';
  const own = times.rangers.filter((r) => r.door === door.name);
  return [
    `Controller ${named(controller.name)} ${order}; ${paceWords(controller, several)}.${together}`,
    ...extraWords(controller),
    ...(times.stretched_us === null
      ? []
      : [`The cycle is too short for a turn at its slowest, which takes ${ms(times.stretched_us)}.`]),
    ...intervalWords(own, door),
  ];
}

const nameOf = ({ door, beam }: RangerTimes, here: DesignDoor): string =>
  door === here.name ? named(beam) : `${named(beam)} of door ${named(door)}`;

function paceWords({ wait_ms, cycle_ms }: Controller, several: boolean): string {
  const next = several ? 'the next turn' : 'the next reading';
  return wait_ms === undefined
    ? `${next} starts ${decimal(cycle_ms ?? 30)}\u00a0ms after the one before`
    : `after the echo, or the time-out, it waits ${decimal(wait_ms)}\u00a0ms before ${next}`;
}

/** What takes time besides: the loop, the serial line, what comes after each round. */
function extraWords({ loop_ms, serial_characters, serial_baud, per_round_ms }: Controller): string[] {
  const parts = [
    ...(loop_ms > 0 ? [`${decimal(loop_ms)}\u00a0ms for the loop`] : []),
    ...(serial_characters > 0
      ? [
          `the time to write ${plural(serial_characters, 'character')} a reading to a serial line of ${count(serial_baud)}\u00a0Bd`,
        ]
      : []),
  ];
  return [
    ...(parts.length > 0 ? [`Each turn also needs ${joined(parts)}.`] : []),
    ...(per_round_ms > 0 ? [`After each round it does other work for ${decimal(per_round_ms)}\u00a0ms.`] : []),
  ];
}

/** How often each ranger is really read: with nobody there, and at the slowest. */
function intervalWords(rangers: readonly RangerTimes[], door: DesignDoor): string[] {
  const byTimes = new Map<string, string[]>();
  for (const r of rangers) {
    const slowest = ms(r.slowest_us);
    const idle = ms(r.idle_us);
    const text =
      idle === slowest ? `every ${idle}` : `every ${idle} with nobody there, every ${slowest} at the slowest`;
    byTimes.set(text, [...(byTimes.get(text) ?? []), nameOf(r, door)]);
  }
  return [...byTimes].map(
    ([text, names]) => `So ${joined(names)} ${names.length === 1 ? 'is' : 'are each'} read ${text}.`,
  );
}

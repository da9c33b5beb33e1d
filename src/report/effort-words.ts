/** Effort in words: amounts, hours, holes, and what of it is whose. Shared by the report and `check`. */
import type { Effort } from '../effort/effort.js';
import { type Holes, holesIn } from '../effort/share.js';
import { WORK_MINUTES } from '../effort/figures.js';
import type { Design } from '../scenario/schema.js';
import { count, decimal, joined, named, plural } from './words.js';

const NBSP = '\u00a0';

/** 123456 → '1,234.56 crowns'; without a currency the number alone. */
export function money(cents: number, currency: string | null): string {
  const fraction = String(Math.abs(cents) % 100).padStart(2, '0');
  const amount = `${count(Math.trunc(cents / 100))}.${fraction}`;
  return currency === null ? amount : `${amount}${NBSP}${named(currency)}`;
}

/** 389.2 → '6 h 29 min'. */
export function hoursWords(minutes: number): string {
  const whole = Math.round(minutes);
  const [h, min] = [Math.floor(whole / 60), whole % 60];
  return h === 0 ? `${min}${NBSP}min` : `${count(h)}${NBSP}h${min === 0 ? '' : `${NBSP}${min}${NBSP}min`}`;
}

/** '12: 8 for sensors, 4 where cables leave frames'; 'none'. */
export function holesWords(holes: Holes): string {
  const parts = [
    [holes.sensors, 'for sensors'],
    [holes.outlets, 'where cables leave frames'],
    [holes.doorways, 'over doorways, from room to room'],
    [holes.ceilings, 'through ceilings'],
  ] as const;
  const some = parts.filter(([n]) => n > 0).map(([n, what]) => `${n} ${what}`);
  return some.length === 0 ? 'none' : `${holesIn(holes)}: ${some.join(', ')}`;
}

/** '12.35 m', or what to say of a length that is not known. */
export function lengthWords(m: number | null): string {
  return m === null ? 'not known' : `${decimal(m, 2)}${NBSP}m`;
}

/** Why lengths of cables are not known; null where all are. */
export function whyNoLengths(effort: Effort): string | null {
  const { missing, placeless, planned, total } = effort;
  if (total.drilled.cable_m !== null && total.surface.cable_m !== null) return null;
  const lacks = [
    ...(missing.rooms.length > 0
      ? [`${plural(missing.rooms.length, 'room')} (${names(missing.rooms)}) without at_m and size_m`]
      : []),
    ...(missing.doors.length > 0
      ? [`${plural(missing.doors.length, 'door')} (${names(missing.doors)}) without at_m`]
      : []),
    ...(placeless.length > 0 ? [`${plural(placeless.length, 'controller')} (${names(placeless)}) without at_m`] : []),
  ];
  if (lacks.length > 0) return `Lengths of cables are not known: ${joined(lacks)}. Parts and hours are without cables.`;
  return planned
    ? 'Lengths of some cables are not known: no way along the walls leads from door to controller. Parts and hours are without them.'
    : null;
}

const names = (all: readonly string[]): string =>
  joined([...all.slice(0, 4).map(named), ...(all.length > 4 ? ['others'] : [])]);

/** Behind the word for parts wherever one of their prices is made up. */
export function madeUpMark({ total }: Effort): string {
  return [...total.drilled.lines, ...total.surface.lines].some((line) => line.made_up) ? ' (made-up prices)' : '';
}

/** What amounts rest on. */
export function pricesWords(effort: Effort): string {
  const lines = [...effort.total.drilled.lines, ...effort.total.surface.lines];
  const made_up = [...new Set(lines.filter((line) => line.made_up).map((line) => line.part))];
  if (made_up.length === 0) return 'All prices are the scenario’s own.';
  const all = lines.every((line) => line.made_up);
  return all
    ? 'All prices are made up: they are nobody’s, and only show how amounts come about. Put in your own under prices.'
    : `Made up are the prices of ${joined(made_up.map(named))}; the others are the scenario’s own.`;
}

const MINUTES = [
  ['minutes_per_hole', 'hole', 'a hole'],
  ['minutes_per_metre', 'metre', 'a metre of cable'],
  ['minutes_per_raceway_metre', 'raceway_metre', 'a metre of raceway'],
  ['minutes_per_sensor', 'sensor', 'a sensor'],
  ['minutes_per_controller', 'controller', 'a controller'],
] as const;

/** '15 min a hole (assumed), 5 min a metre of cable, …'. */
export function minutesWords({ work = {} }: Design): string {
  const parts = MINUTES.map(([key, figure, what]) => {
    const own = work[key];
    return `${decimal(own ?? WORK_MINUTES.value[figure])}${NBSP}min ${what}${own === undefined ? ' (assumed)' : ''}`;
  });
  return `Work is taken as ${joined(parts)}.`;
}

/** What can be taken back of each way of mounting. */
export const UNDO = {
  drilled: 'Holes stay: they can be filled and painted over, but a frame is not whole again.',
  surface:
    'Nothing is drilled: adhesive strips and raceway come off again; paint and paper beneath may come with them.',
} as const;

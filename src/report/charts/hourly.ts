/** When people go through a door: persons an hour by clock hour, workdays apart from the days of a weekend. */
import { WEEKDAYS } from '../../agents/household/schema.js';
import type { HourlyCounts } from '../../score/figures.js';
import { capital, decimal, joined, named } from '../words.js';
import type { Chart } from './chart.js';
import { shownAs } from './live.js';

const HOURS = Array.from({ length: 24 }, (_, hour) => hour);
/** Fewer hours than these have no shape. */
const FEWEST_HOURS = 3;

interface Group {
  readonly name: string;
  readonly days: readonly number[];
  readonly look: { readonly color: string; readonly strokeWidth: number; readonly strokeDash?: readonly number[] };
  readonly told: string;
}
const GROUPS: readonly Group[] = [
  { name: 'workdays', days: [0, 1, 2, 3, 4], look: { color: 'var(--a)', strokeWidth: 2.5 }, told: 'solid' },
  { name: 'Saturday', days: [5], look: { color: 'var(--b)', strokeWidth: 2, strokeDash: [6, 3] }, told: 'dashed' },
  { name: 'Sunday', days: [6], look: { color: 'var(--good)', strokeWidth: 2, strokeDash: [2, 3] }, told: 'dotted' },
];
const EVERY_DAY: Group = { ...GROUPS[0]!, name: 'every day', days: [0, 1, 2, 3, 4, 5, 6] };

/** '07:00'. */
const clock = (hour: number): string => `${String(hour % 24).padStart(2, '0')}:00`;

/** Persons an hour, both ways, over the given days; null where the clock doesn't cover the hour. */
export function perHour(counts: HourlyCounts, days: readonly number[], hour: number): number | null {
  let [persons, covered] = [0, 0];
  counts.hour.forEach((h, i) => {
    if (h !== hour || !days.includes(counts.day[i]!)) return;
    persons += counts.forward[i]! + counts.backward[i]!;
    covered += counts.covered_h[i]!;
  });
  return covered > 0 ? persons / covered : null;
}

/** @param byDay whether days of the week differ: with a household they do, with traffic they don't */
export function hourlyChart(id: string, counts: HourlyCounts, byDay: boolean): Chart | null {
  const lines = (byDay ? GROUPS : [EVERY_DAY])
    .map((group) => ({ group, values: HOURS.map((hour) => perHour(counts, group.days, hour)) }))
    .filter(({ values }) => values.some((value) => value !== null));
  const covered = new Set(counts.hour);
  if (covered.size < FEWEST_HOURS || lines.length === 0) return null;
  const busiest = busiestHour(counts, byDay);
  const looks = lines.map(({ group }) => `${group.told}: ${group.name}`);
  const quiet = quietHours(lines.map(({ values }) => values));
  const most = lines.map(({ group, values }) => {
    const top = Math.max(...values.map((value) => value ?? 0));
    return `${capital(group.name)}: at most ${decimal(top, 1)} persons an hour, from ${clock(values.indexOf(top))}.`;
  });
  return {
    id,
    title: `Door ${named(counts.door)}: ${busiest === null ? 'nobody goes through' : `most go through ${busiest}`}`,
    summary: `Persons an hour through the door, both ways, by the clock. ${most.join(' ')}${quiet}`,
    key: `Persons an hour, both ways, mean over all replicates${lines.length > 1 ? `; ${joined(looks)}` : ''}.${quiet}`,
    height: 160,
    margin: { left: 64, right: 12, top: 8, bottom: 42 },
    door: counts.door,
    table: {
      columns: [
        { title: 'clock hour' },
        ...lines.map(({ group }, series) => ({ title: `${group.name}, persons an hour`, series })),
      ],
      rows: HOURS.map((hour) => [clock(hour), ...lines.map(({ values }) => values[hour] ?? null)]),
    },
    places: { along: 'x', at: HOURS.map((hour) => hour + 0.5) },
    series: lines.map(({ group: { name, look } }) => ({
      name,
      color: look.color,
      ...(look.strokeDash && { strokeDash: look.strokeDash }),
    })),
    spec: {
      layer: lines.map(({ group, values }, i) => ({
        // An hour that the clock doesn't cover breaks the line.
        data: { values: values.map((persons, hour) => ({ h: hour + 0.5, persons })) },
        mark: { type: 'line', ...group.look, opacity: shownAs(i, 1) },
        encoding: {
          x: {
            field: 'h',
            type: 'quantitative',
            scale: { domain: [0, 24], nice: false },
            axis: { title: 'clock hour', values: [0, 3, 6, 9, 12, 15, 18, 21, 24] },
          },
          y: {
            field: 'persons',
            type: 'quantitative',
            scale: { zero: true, nice: true },
            axis: { title: 'persons an hour', tickCount: 4 },
          },
        },
      })),
    },
  };
}

/** 'on Saturdays from 15:00 to 16:00'; null where nobody goes through. */
function busiestHour(counts: HourlyCounts, byDay: boolean): string | null {
  const groups = byDay ? WEEKDAYS.map((_, day) => [day]) : [EVERY_DAY.days];
  let best = { persons: 0, day: 0, hour: 0 };
  groups.forEach((days, day) => {
    for (const hour of HOURS) {
      const persons = perHour(counts, days, hour) ?? 0;
      if (persons > best.persons) best = { persons, day, hour };
    }
  });
  if (best.persons === 0) return null;
  const on = byDay ? `on ${capital(WEEKDAYS[best.day]!)}s ` : '';
  return `${on}from ${clock(best.hour)} to ${clock(best.hour + 1)}`;
}

/** Of the busiest hour of the calmest sort of day: so that a party doesn't make the rest of the week look quiet. */
const NEARLY_NOBODY = 0.05;

/** The longest stretch of hours in which hardly anybody passes on any day. */
function quietHours(lines: readonly (readonly (number | null)[])[]): string {
  const least = NEARLY_NOBODY * Math.min(...lines.map((values) => Math.max(...values.map((value) => value ?? 0))));
  const quiet = HOURS.map((hour) => lines.every((values) => values[hour] !== null && values[hour]! <= least));
  let best = { from: 0, length: 0 };
  for (const from of HOURS) {
    let length = 0;
    while (length < 24 && quiet[(from + length) % 24]) length++;
    if (length > best.length && length < 24) best = { from, length };
  }
  return best.length < 2 ? '' : ` Hardly anybody from ${clock(best.from)} to ${clock(best.from + best.length)}.`;
}

/** What was asked, in one plain sentence: doors, sensors, logic, what crowd, how long. */
import { isInfant } from '../agents/household/walkers.js';
import type { Household } from '../agents/household/schema.js';
import { DAY_H } from '../engine/time.js';
import type { Design } from '../scenario/schema.js';
import type { Figures } from '../score/figures.js';
import type { Metrics } from '../score/metrics-schema.js';
import type { SensorKind } from '../sensors/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import { kindWords, kindsUsed } from './sensor-words.js';
import { capital, decimal, headlineLogic, joined, metres, named, numeral, plural, whoWords } from './words.js';

/** Walkers of a mix that are named one by one. */
const MOST_NAMED = 4;

/** 'Two light barriers in the frame of door front (0.90 m wide), read by the logic four-level. An assumed crowd of …' */
export function askedWords(design: Design, metrics: Metrics, { replayed }: Pick<Figures, 'replayed'>): string {
  const logics = design.logics.length;
  const read = `read by the logic ${named(headlineLogic(design))}${logics > 1 ? ` (${numeral(logics - 1)} more ${logics === 2 ? 'is' : 'are'} compared)` : ''}`;
  const what = `${capital(sensorsWords(design))} in ${frames(design)}, ${read}.`;
  if (replayed) return `${what} Counted from a log of ${decimal(replayed.span_h, 2)}\u00a0hours.`;
  return `${what} ${capital(crowdWords(design))}, over ${plural(metrics.replicates, 'replicate')} of ${spanWords(metrics.hours)} from ${startWords(design)}.`;
}

/** '8 h', '7 days'. */
export const spanWords = (hours: number): string =>
  hours >= 2 * DAY_H && hours % DAY_H === 0 ? plural(hours / DAY_H, 'day') : `${decimal(hours, 1)}\u00a0h`;

/** '08:00'; of a household, whose days differ, 'Monday 00:00'. */
export const startWords = ({ household, starts_on, starts_at }: Design): string =>
  household ? `${capital(starts_on)} ${starts_at}` : starts_at;

function sensorsWords(design: Design): string {
  const kinds = design.doors.flatMap(({ beams }) => beams.map(({ sensor }) => sensorNamed(design, sensor).kind));
  const say = (kind: SensorKind): string => {
    const n = kinds.filter((one) => one === kind).length;
    return `${numeral(n)} ${kindWords(kind)}${n === 1 ? '' : 's'}`;
  };
  return joined(kindsUsed(design).map(say)) || 'no sensor';
}

function frames({ doors }: Design): string {
  const [only] = doors;
  if (doors.length !== 1 || only === undefined) return `the frames of ${numeral(doors.length)} doors`;
  return `the frame of door ${named(only.name)}, ${metres(only.width_m)} wide, from ${named(only.from)} to ${named(only.to)}`;
}

function crowdWords(design: Design): string {
  const { household, doors } = design;
  if (household) return householdWords(household);
  const weights = new Map<string, number>();
  for (const { who, share } of doors.flatMap(({ traffic }) => traffic.mix))
    weights.set(who, (weights.get(who) ?? 0) + share);
  const names = [...weights].sort(([, a], [, b]) => b - a).map(([who]) => whoWords(who));
  const shown = names.length > MOST_NAMED ? [...names.slice(0, MOST_NAMED - 1), 'others'] : names;
  return `an assumed crowd of ${joined(shown)}`;
}

function householdWords({ people, pets, visitors, parties }: Household): string {
  const carried = people.filter(isInfant).length;
  const parts = [
    ...(people.length === 0 ? [] : [plural(people.length, 'person', 'people')]),
    ...(pets.length === 0 ? [] : [plural(pets.length, 'pet')]),
    ...(visitors.length + parties.length === 0 ? [] : ['guests']),
  ];
  const infant = carried === 0 ? '' : ` (${numeral(carried)} carried)`;
  return `an assumed household of ${joined(parts) || 'nobody'}${infant}`;
}

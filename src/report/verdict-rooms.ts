/** What the verdict says of rooms: who sits in the dark, whether another ledger would help, and what else could be built. */
import type { Design } from '../scenario/schema.js';
import type { Estimate, HouseMetrics, Metrics, RoomMetrics } from '../score/metrics-schema.js';
import { ledgerWords } from './ledger-words.js';
import { ledgerChoice } from './ledger-choice.js';
import { durationWords, waitWords } from './wait-words.js';
import { formatEstimate, headlineLogic, named } from './words.js';

/** The room that leaves people in the dark most often, under the first ledger. */
export function darkSentence(design: Design, metrics: Metrics): string | null {
  const ledger = design.ledgers[0]?.name;
  const rooms = metrics.rooms.filter((r) => r.logic === headlineLogic(design) && r.ledger === ledger);
  const often = (r: RoomMetrics): number => r.empty_while_occupied_per_day.value ?? -1;
  const [first, ...others] = rooms;
  if (first === undefined) return null;
  const dark = others.reduce((a, b) => (often(b) > often(a) ? b : a), first);
  const where = `With the ledger ${ledgerWords(dark.ledger)},`;
  if (often(dark) < 0) return `${where} this run can’t say how often a room leaves people in the dark.`;
  if (often(dark) === 0)
    return `${where} no room’s count said empty for 10 s or longer while somebody was there: ${formatEstimate(dark.empty_while_occupied_per_day)} times a day.`;
  const several = rooms.length > 1 ? ' most often' : '';
  return (
    `${where} room ${named(dark.room)} leaves people in the dark${several}: its count says empty while somebody is there ` +
    `${perDayOrWeek(dark.empty_while_occupied_per_day)}. The longest such time of a replicate is ` +
    `${waitWords(dark.longest_empty_while_occupied_min, 'min')} on average, and ${durationWords(dark.max_empty_while_occupied_min, 'min')} in the worst.`
  );
}

/** What happens less than once a day is told by the week. */
function perDayOrWeek(e: Estimate): string {
  if ((e.value ?? 0) >= 1) return `${formatEstimate(e)} times a day`;
  const week = (x: number | null): number | null => (x === null ? null : 7 * x);
  return `${formatEstimate({ ...e, value: week(e.value), low: week(e.low), high: week(e.high) })} times a week`;
}

/** Whether another ledger does better on the same tallies, and by how much. */
export function ledgerSentence(design: Design, metrics: Metrics): string | null {
  const choice = ledgerChoice(design, metrics);
  if (choice === null || design.ledgers.length < 2) return null;
  const { first, best, certain } = choice;
  if (best === first) return 'No other ledger of this run does better on the same tallies.';
  const of = (house: HouseMetrics): string =>
    design.need === 'anyone'
      ? `dark ${formatEstimate(house.empty_while_occupied_per_day)} and left on ${formatEstimate(house.occupied_while_empty_per_day)} times a day`
      : `${formatEstimate(house.exact_share, 'share')} of the time`;
  const what = design.need === 'anyone' ? 'all rooms together are' : 'all rooms are right at once';
  return (
    `On the same tallies the ledger ${ledgerWords(best.ledger)} ${certain ? 'does' : 'may do'} better: ${what} ` +
    `${of(best)}, instead of ${of(first)}${certain ? '' : '; the intervals meet, so this is not certain'}.`
  );
}

/** The other route, where a count is only wanted to know whether anyone is there. */
const ANYONE: readonly string[] = [
  'You only need to know whether anyone is in a room. The other way to that is a presence sensor in the room, and neither way is whole.',
  'Beams count who passes: a wrong count stays until something puts it right, and while nobody goes through they learn nothing.',
  'A presence sensor misses people who keep still, and still says occupied for a while after they left.',
  'Neither tells who is there, and neither is for safety.',
];

export const otherRoute = (design: Design): string | null => (design.need === 'anyone' ? ANYONE.join(' ') : null);

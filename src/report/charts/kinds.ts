/** Who does what, ranked by how often it is counted wrong: dot and interval per kind of passage. */
import type { DoorMetrics } from '../../score/metrics-schema.js';
import { html } from '../html.js';
import { capital, count, formatEstimate, plural } from '../words.js';
import { doingWords, type WhoWords } from '../who-words.js';
import { FEW, highOf, worstKinds } from '../worst.js';
import type { Chart } from './chart.js';
import { rankedDots, rankedRow } from './ranked-dots.js';

/** Longer names are cut in the picture; the table beneath has them whole. */
const LONGEST = 42;
/** Kinds drawn; the table has all. */
const MOST = 14;
/** Kinds told in words to who doesn't see the picture; the table has all. */
const MOST_TOLD = 6;

export function kindsChart(id: string, door: DoorMetrics, who: WhoWords): Chart | null {
  const ranked = worstKinds([door]);
  if (ranked.length === 0) return null;
  const rows = ranked.slice(0, MOST).map(({ rate }, i) => {
    const e = rate.wrong_per_100_visits;
    const name = capital(doingWords(who, rate.who, rate.kind));
    return rankedRow(i, name, e, {
      note: `n ${count(rate.visits)}`,
      worst: i === 0 && (e.value ?? 0) > 0,
      longest: LONGEST,
    });
  });
  // A kind of a visit or two must not squeeze the others: its line is cut at the edge.
  const many = ranked.filter((k) => k.rate.visits >= FEW);
  const leading = many.length > 0 ? many : ranked;
  const top = Math.max(1, ...leading.map((k) => highOf(k.rate.wrong_per_100_visits)), ...rows.map((r) => r.value ?? 0));
  const cut = rows.some((r) => r.high > top);
  const first = ranked[0]?.rate;
  const zero = first?.wrong_per_100_visits.value === 0;
  return {
    id,
    title:
      first === undefined || zero
        ? ranked.some(({ rate }) => (rate.wrong_per_100_visits.value ?? 0) > 0)
          ? 'Only kinds that came seldom went wrong'
          : 'No kind of passage went wrong'
        : `Wrong most often: ${doingWords(who, first.who, first.kind)}`,
    summary: `${ranked
      .slice(0, MOST_TOLD)
      .map(
        ({ rate }) =>
          `${capital(doingWords(who, rate.who, rate.kind))}: ${formatEstimate(rate.wrong_per_100_visits)} wrong per 100 visits, ${plural(rate.visits, 'visit')}.`,
      )
      .join(
        ' ',
      )}${ranked.length > MOST_TOLD ? ` ${plural(ranked.length - MOST_TOLD, 'kind')} less often wrong, or seldom seen: the table has them.` : ''}`,
    key: html`Dot: estimate; line: 95 % interval; n: visits of that kind. The diamond marks the kind that goes wrong
most.${ranked.some((k) => k.rate.visits < FEW) && ` Kinds with fewer than ${FEW} visits come last${cut ? ' and may reach beyond the edge' : ''}.`}${ranked.length > MOST && ` The ${MOST} most wrong of ${ranked.length} kinds are drawn.`}`,
    door: door.door,
    ...rankedDots(rows, top, 'wrong per 100 visits of that kind'),
  };
}

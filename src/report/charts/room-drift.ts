/** How far a room's count runs away over the clock, with the first ledger and with the one that does best. */
import type { RoomDriftBands } from '../../score/figures.js';
import { capital, named } from '../words.js';
import type { Chart } from './chart.js';
import { signed } from './drift.js';
import { shownAs } from './live.js';
import { thinned } from './thin.js';
import { ledgerWords } from '../ledger-words.js';

const MOST_POINTS = 80;
const LOOKS = [
  { color: 'var(--a)', dash: null, told: 'Blue, solid' },
  { color: 'var(--b)', dash: [6, 3], told: 'orange, dashed' },
] as const;

/** Axes that charts of several runs share, and whose run this one is. */
export interface SharedScale {
  readonly run: string;
  readonly persons: readonly [number, number];
  readonly hours: number;
}

/** @param bands one room's, of one ledger or two; the first ledger first */
export function roomDriftChart(
  id: string,
  bands: readonly RoomDriftBands[],
  replicates: number,
  shared?: SharedScale,
): Chart | null {
  const shown = bands.slice(0, LOOKS.length);
  const [first] = shown;
  const last = (first?.clock_h.length ?? 0) - 1;
  const end = first?.clock_h[last];
  if (first === undefined || end === undefined) return null;
  // Ledgers of a room are looked at at the same moments.
  const at = thinned(first.clock_h.length, MOST_POINTS);
  const hours = `${Number(end.toFixed(2))}\u00a0h`;
  const off = (b: RoomDriftBands): string => `${signed(b.q50[last] ?? 0)} with ${ledgerWords(b.ledger)}`;
  const ends = shown.map((b) =>
    replicates === 1
      ? `${capital(ledgerWords(b.ledger))}: ${signed(b.q50[last] ?? 0)} persons after ${hours}.`
      : `${capital(ledgerWords(b.ledger))}: median ${signed(b.q50[last] ?? 0)} persons after ${hours}, nine of ten replicates between ${signed(b.q05[last] ?? 0)} and ${signed(b.q95[last] ?? 0)}.`,
  );
  const looks = shown.map((b, i) => `${LOOKS[i]!.told}: ${ledgerWords(b.ledger)}`).join('; ');
  const layer = shown.flatMap((b, i) => {
    const { color, dash } = LOOKS[i]!;
    const values = at.map((k) => ({
      h: b.clock_h[k],
      low: b.q05[k],
      mid: b.q50[k],
      high: b.q95[k],
    }));
    const y = (field: string): object => ({
      field,
      type: 'quantitative',
      scale: shared ? { domain: shared.persons, nice: true } : { nice: true },
      axis: { title: 'counted minus true, persons', tickCount: 5 },
    });
    return [
      {
        data: { values },
        mark: { type: 'area', interpolate: 'step-after', color, opacity: shownAs(i, 0.22) },
        encoding: { y: y('low'), y2: { field: 'high' } },
      },
      {
        data: { values },
        mark: {
          type: 'line',
          interpolate: 'step-after',
          color,
          strokeWidth: 2.25,
          opacity: shownAs(i, 1),
          ...(dash && { strokeDash: dash }),
        },
        encoding: { y: y('mid') },
      },
    ];
  });
  return {
    id,
    title: `${shared ? `${shared.run}, room` : 'Room'} ${named(shown[0]!.room)}: after ${hours} the count is off by ${shown.map(off).join(', ')}`,
    summary: `Counted minus true persons in the room. ${ends.join(' ')}`,
    key: `${ends.join(' ')} ${looks}; line: median; band: nine of ten replicates.`,
    height: 190,
    margin: { left: 72, right: 12, top: 8, bottom: 42 },
    room: shown[0]!.room,
    clock_h: 1,
    table: {
      columns: [
        { title: 'hours since the start' },
        ...shown.flatMap((b, series) =>
          ['median', 'one replicate in 20 is below', 'one in 20 is above'].map((what) => ({
            title: `${ledgerWords(b.ledger)}: ${what}`,
            series,
          })),
        ),
      ],
      rows: at.map((k) => [first.clock_h[k]!, ...shown.flatMap((b) => [b.q50[k]!, b.q05[k]!, b.q95[k]!])]),
    },
    places: { along: 'x', at: at.map((k) => first.clock_h[k]!), steps: true },
    series: shown.map((b, i) => ({
      name: ledgerWords(b.ledger),
      color: LOOKS[i]!.color,
      ...(LOOKS[i]!.dash && { strokeDash: LOOKS[i]!.dash }),
    })),
    spec: {
      encoding: {
        x: {
          field: 'h',
          type: 'quantitative',
          ...(shared && { scale: { domain: [0, shared.hours] } }),
          axis: { title: 'hours since the start', tickCount: { signal: 'width / 70' } },
        },
      },
      layer: [
        ...layer,
        {
          data: { values: [{}] },
          mark: { type: 'rule', color: 'var(--ink)', strokeWidth: 1 },
          encoding: { x: null, y: { datum: 0 } },
        },
      ],
    },
  };
}

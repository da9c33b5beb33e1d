/** Persons in a room over the first replicate: the truth, and what the ledger said. */
import type { RoomTrace } from '../../score/figures.js';
import { named, plural } from '../words.js';
import type { Chart } from './chart.js';
import { signed } from './drift.js';
import { thinnedSteps } from './thin.js';

const MOST_STEPS = 400;

const LEDGER: Readonly<Record<string, string>> = {
  raw: 'raw sum',
  floor: 'floor at zero',
  cap: 'floor and cap',
  reset: 'daily reset',
  conserve: 'conserved persons',
  presence: 'corrected by presence',
  likelihood: 'likeliest counts',
};
export const ledgerWords = (ledger: string): string => LEDGER[ledger] ?? named(ledger);

export function roomChart(id: string, trace: RoomTrace, hours: number): Chart | null {
  const last = trace.time_h.length - 1;
  const [truth, counted] = [trace.truth[last], trace.counted[last]];
  if (truth === undefined || counted === undefined) return null;
  const rows = thinnedSteps([trace.truth, trace.counted], MOST_STEPS).map((i) => ({
    h: trace.time_h[i],
    truth: trace.truth[i],
    counted: trace.counted[i],
  }));
  // The last value holds to the end of the clock; visits under way may end after it.
  const end = Math.max(hours, trace.time_h[last] ?? 0);
  rows.push({ h: end, truth, counted });
  const off = counted - truth;
  const x = {
    field: 'h',
    type: 'quantitative',
    axis: { title: 'hours since the start', tickCount: { signal: 'width / 70' } },
  };
  const y = (field: string): object => ({
    field,
    type: 'quantitative',
    axis: { title: 'persons', tickCount: 5, format: 'd' },
  });
  return {
    id,
    title: `Room ${named(trace.room)}, ${ledgerWords(trace.ledger)}: ${off === 0 ? 'ends right' : `ends ${plural(Math.abs(off), 'person')} too ${off > 0 ? 'high' : 'low'}`}`,
    summary: `At the end of the first replicate ${plural(truth, 'person')} are in the room and the ledger says ${counted} (${signed(off)}), by the logic ${named(trace.logic)}.`,
    key: `First replicate, logic ${named(trace.logic)}. Solid: truth; dashed: counted.${trace.time_h.length > MOST_STEPS ? ' Thinned for drawing: highs and lows kept.' : ''}`,
    height: 190,
    margin: { left: 56, right: 12, top: 8, bottom: 42 },
    spec: {
      data: { values: rows },
      encoding: { x },
      layer: [
        {
          mark: { type: 'line', interpolate: 'step-after', color: 'var(--a)', strokeWidth: 2.5 },
          encoding: { y: y('truth') },
        },
        {
          mark: { type: 'line', interpolate: 'step-after', color: 'var(--b)', strokeWidth: 1.75, strokeDash: [5, 3] },
          encoding: { y: y('counted') },
        },
      ],
    },
  };
}

/** How far the same rooms run away under each run, all on one scale. */
import { type Chart, isChart } from '../../charts/chart.js';
import { driftExtent } from '../../charts/drift.js';
import { roomDriftChart } from '../../charts/room-drift.js';
import type { RoomDriftBands } from '../../../score/figures.js';
import { headlineLogic } from '../../words.js';
import { type CompareRun, headlineLedger, inAll, labelWords, roomNames } from '../runs.js';

const MOST_CHARTS = 9;

export interface DriftOfRoom {
  readonly room: string;
  readonly charts: readonly Chart[];
}

/** Rooms that all runs have, those that run away farthest first. */
export function roomDriftCharts(runs: readonly CompareRun[]): { rooms: readonly DriftOfRoom[]; left_out: number } {
  const all = inAll(runs, roomNames).flatMap((room) => {
    const bands = runs.map((run) => bandsOf(run, room));
    return bands.every((one) => one !== undefined) ? [{ room, bands: bands as RoomDriftBands[] }] : [];
  });
  const farthest = ({ bands }: (typeof all)[number]): number => Math.max(...driftExtent(bands).map(Math.abs));
  const order = [...all].sort((a, b) => farthest(b) - farthest(a));
  const shown = order.slice(0, Math.floor(MOST_CHARTS / runs.length));
  const persons = driftExtent(shown.flatMap(({ bands }) => bands));
  const hours = Math.max(0, ...shown.flatMap(({ bands }) => bands.map(({ clock_h }) => clock_h.at(-1) ?? 0)));
  const rooms = shown.map(({ room, bands }, r) => ({
    room,
    charts: bands
      .map((one, i) =>
        roomDriftChart(`room-drift-${r}-${i}`, [one], runs[i]!.metrics.replicates, {
          run: labelWords(runs[i]!),
          persons,
          hours,
        }),
      )
      .filter(isChart),
  }));
  return { rooms, left_out: all.length - shown.length };
}

function bandsOf({ design, figures }: CompareRun, room: string): RoomDriftBands | undefined {
  return figures.room_drift.find(
    (one) => one.room === room && one.logic === headlineLogic(design) && one.ledger === headlineLedger(design),
  );
}

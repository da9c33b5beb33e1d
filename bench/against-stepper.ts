/** The edge search against the plain way, on the same visits: how many times faster, and whether they agree. */
import { check } from './check.js';
import { crowdNamed, designOf } from './crowds.js';
import type { Measured } from './measured.js';
import { timed } from './measured.js';
import { record, shadowOf } from './recording.js';
import { steppedBreaks } from './stepper.js';

const PASSAGES = 4_000;

export function againstStepper(name: string, repeats: number): Measured[] {
  const { visits, barriers } = record(designOf(crowdNamed(name), PASSAGES));
  const exact = visits.map((seen) => shadowOf(seen, barriers));
  const step = () => visits.map(({ body, passage }) => steppedBreaks(body, passage.motion, barriers.paths));
  agree(
    visits.map(({ visit }) => visit.enter_us),
    exact.map(({ breaks }) => breaks),
    step(),
  );
  const units = visits.length;
  return [
    { label: 'edge search', units, ...timed(repeats, () => visits.forEach((one) => shadowOf(one, barriers))) },
    { label: '1 ms stepper', units, ...timed(repeats, step) },
  ];
}

/** A break or gap that the grid can't miss is found by both, within a step. */
function agree(enter_us: readonly number[], exact: readonly (readonly (readonly number[])[])[], stepped: number[][][]) {
  exact.forEach((paths, v) => {
    paths.forEach((times, p) => {
      const searched = times.map((time_us) => (time_us - enter_us[v]!) / 1e6);
      const grid = stepped[v]![p]!;
      if (searched.every((time, i) => i === 0 || time - searched[i - 1]! > 2e-3)) {
        check(grid.length === searched.length, `visit ${v}: ${searched.length} edges found, ${grid.length} stepped`);
        const off = Math.max(0, ...searched.map((time, i) => Math.abs(grid[i]! - time)));
        check(off < 1.1e-3, `visit ${v}: an edge is ${off} s from the stepper's`);
      }
    });
  });
}

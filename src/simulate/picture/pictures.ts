/** Pictures of visits: their replicate is run once more, as far as it must, with somebody looking on. */
import type { OutsideLogics } from '../../counter/make-logic.js';
import { hostOf } from '../../counter/host.js';
import type { Design } from '../../scenario/schema.js';
import type { Picture } from '../../score/pictures.js';
import { logicsAt } from '../logics-at.js';
import { watchReplicate } from '../watch-replicate.js';
import type { Arrival } from '../parties.js';
import { type Pictured, Recorder } from './recorder.js';

/** What happened at a door is told when somebody comes to it later; by then the visits before are long over. */
const LATER_US = 120_000_000;

/** In the order asked for. @param replicate its number, from 1 */
export function picturesOf(
  design: Design,
  replicate: number,
  wanted: readonly Pictured[],
  outside?: OutsideLogics,
): Picture[] {
  if (wanted.length === 0) return [];
  const recorders = wanted.map((of) => new Recorder(design, replicate, of, firstLabel(design, of, outside)));
  const last_us = Math.max(...recorders.map(({ end_us }) => end_us)) + LATER_US;
  const waiting = new Set(wanted.map(({ door }) => door));
  watchReplicate(
    design,
    replicate,
    {
      visit(visit, body, passage) {
        if (visit.enter_us > last_us) waiting.delete(visit.door);
        const arrived: Arrival = { visit, body, passage };
        for (const recorder of recorders) recorder.visit(arrived);
      },
      edge: (...edge) => recorders.forEach((recorder) => recorder.edge(...edge)),
      reading: (door, beam, time_us, _um, near) =>
        recorders.forEach((recorder) => recorder.reading(door, beam, time_us, near)),
      step: (...step) => recorders.forEach((recorder) => recorder.step(...step)),
    },
    () => waiting.size === 0,
    outside,
  );
  return recorders.map((recorder) => recorder.picture());
}

function firstLabel(design: Design, { door, logic }: Pictured, outside: OutsideLogics | undefined): string {
  const host = hostOf(logicsAt(design, design.doors[door]!, outside)[logic]!, { onTally: () => {} });
  const { label } = host.snapshot();
  host.close();
  return label;
}

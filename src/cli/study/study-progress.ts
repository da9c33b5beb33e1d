/** How far a study has come, on stderr: a line that is drawn again on a terminal, a plain line now and then elsewhere. */
import { SingleBar } from 'cli-progress';
import { short } from '../../engine/printable.js';
import type { Standing } from '../../study/run/standing.js';
import type { Io } from '../io.js';
import { doneWords } from './finish.js';
import { durationText } from '../progress.js';

const LINE_EVERY_S = 5;
const DRAW_EVERY_MS = 100;

export interface StudyProgress {
  update(standing: Standing): void;
  stop(): void;
}

export function startStudyProgress(standing: Standing, io: Io, quiet: boolean): StudyProgress {
  if (quiet) return { update: () => undefined, stop: () => undefined };
  const began = performance.now();
  const before = totals(standing);
  let told = began;
  const words = (): string => {
    const now = totals(standing);
    const spent_s = (performance.now() - began) / 1000;
    const { done, most } = standing.cells;
    const fresh = done - before.done;
    const left = fresh > 0 ? `${durationText((spent_s / fresh) * (most - done))} left` : 'beginning';
    const pace = Math.round((now.passages - before.passages) / Math.max(spent_s, 0.001));
    const atMost = standing.plan.stopping.fixed === null ? 'at most ' : '';
    return `${now.ended} of ${now.designs} designs, ${doneWords({ done, most }, standing.plan.stopping.fixed)} replicates, ${pace} passages/s, ${atMost}${left}${bestSoFar(standing)}`;
  };
  if (!io.errIsTerminal)
    return {
      update() {
        if (performance.now() - told < LINE_EVERY_S * 1000) return;
        told = performance.now();
        io.err(`${words()}\n`);
      },
      stop: () => undefined,
    };
  const bar = new SingleBar({
    format: '{bar} {percentage} %  {words}',
    barCompleteChar: '\u2588',
    barIncompleteChar: '\u2591',
    barsize: 16,
    clearOnComplete: true,
    stream: process.stderr,
  });
  bar.start(standing.cells.most, standing.cells.done, { words: words() });
  return {
    update() {
      if (performance.now() - told < DRAW_EVERY_MS) return;
      told = performance.now();
      const { done, most } = standing.cells;
      bar.setTotal(most);
      bar.update(done, { words: words() });
    },
    stop: () => bar.stop(),
  };
}

function totals({ designs: all, cells, mine }: Standing): Record<'done' | 'passages' | 'designs' | 'ended', number> {
  const designs = all.filter(({ planned }) => mine(planned));
  return {
    designs: designs.length,
    done: cells.done,
    passages: designs.reduce((sum, one) => sum + one.sums.visits, 0),
    ended: designs.filter(({ ended }) => ended !== null).length,
  };
}

/** Of the designs with a cell; it may change. */
function bestSoFar({ designs, plan }: Standing): string {
  const sign = plan.study.best === 'least' ? 1 : -1;
  const tried = designs.filter(({ sums }) => sums.exposure > 0);
  const value = (one: (typeof designs)[number]): number => one.sums.events / one.sums.exposure;
  const [best] = [...tried].sort((a, b) => sign * (value(a) - value(b)));
  if (!best) return '';
  const { rank } = plan.measures(best.planned);
  return `, best so far ${short((rank.options.scale ?? 1) * value(best), 3)} (design ${best.planned.number})`;
}

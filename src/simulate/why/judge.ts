/** What a logic makes of a window, and what of that is wrong. */
import type { Visit } from '../../agents/visit.js';
import type { AnyLogic, HostSnapshot, HostStep } from '../../counter/host.js';
import { hostOf } from '../../counter/host.js';
import { wrongOf } from '../../score/door-counts.js';
import { DoorScorer } from '../../score/door-scorer.js';
import { WrongVisits } from '../../score/wrong-visits.js';
import type { Told } from './window.js';

export interface Judged {
  /** Units of wrong, by the visit's number; visits that came out right are not in it. */
  readonly wrong: ReadonlyMap<number, number>;
  /** When nobody was tallied, microseconds. */
  readonly strays_us: readonly number[];
}

/**
 * @param told what the controller gives it @param visits who is truly there, in order of entering
 * @param delay_us how long after it happened the logic may learn of an edge @param trace is told of every step
 */
export function judge(
  logic: AnyLogic,
  from: HostSnapshot,
  told: readonly Told[],
  visits: readonly Visit[],
  {
    end_us,
    delay_us,
    trace,
  }: { readonly end_us: number; readonly delay_us: number; readonly trace?: (step: HostStep) => void },
): Judged {
  const wrong = new WrongVisits(1, 1);
  const scorer = new DoorScorer(logic.latency_us + delay_us, {
    visit: (visit, verdict) => wrong.judged(0, 0, visit, verdict),
    nobody: (time_us, sign) => wrong.nobody(0, 0, time_us, sign),
  });
  for (const visit of visits) scorer.visit(visit);
  const host = hostOf(logic, { onTally: (time_us, direction) => scorer.tally(time_us, direction), trace }, from);
  let down = false;
  for (const one of told) {
    if (one.kind === 'input') {
      if (one.changed || logic.readings === true) host.inputMask(one.time_us, one.mask, one.readings);
    } else if (one.kind === 'down') {
      host.finish(one.time_us);
      down = true;
    } else {
      host.reset(one.time_us, one.mask);
      down = false;
    }
  }
  if (!down) host.finish(end_us);
  host.close();
  scorer.close();
  return {
    wrong: new Map(wrong.visits.map((visit) => [visit.number, wrongOf(visit)])),
    strays_us: wrong.strays.map(({ time_us }) => time_us),
  };
}

/**
 * Why something went wrong in a window: it is played again with one thing taken away at a time, then with two, and
 * where nothing helps the record is read.
 */
import { axisPaths } from '../../sensors/axis-paths.js';
import type { AnyLogic, HostStep } from '../../counter/host.js';
import type { Stream } from '../../engine/stream.js';
import type { MountedBeam } from '../../sensors/mounted.js';
import { wrongOf } from '../../score/door-counts.js';
import type { ErrorCounts } from '../../score/errors.js';
import { REMOVALS, type Removal, type Structure, type Why } from '../../score/why-classes.js';
import type { Arrival } from '../parties.js';
import { shadowOf } from '../shadow.js';
import { together } from '../stretches.js';
import { causeOf } from './cause.js';
import { hiddenLimbs } from './hidden-limbs.js';
import { type Judged, judge } from './judge.js';
import { play, remaining } from './play.js';
import type { Told, Window } from './window.js';

/** What is asked about: a visit by its number, or a tally of nobody by its time. */
export interface Subject {
  /** Index of the logic. */
  readonly logic: number;
  /** Null for a tally of nobody. */
  readonly number: number | null;
  /** When the visit entered, or the tally came, microseconds. */
  readonly time_us: number;
  readonly errors: ErrorCounts;
}

const NOTHING: ReadonlySet<Removal> = new Set();
/** With these gone a body is alone and seen perfectly. */
const IDEAL: ReadonlySet<Removal> = new Set<Removal>(['noise', 'other bodies', 'leaf', 'scan gaps']);

export class Explainer {
  private readonly tolds = new Map<string, Told[]>();

  /**
   * @param logics of the window's door @param mounted its beams
   * @param delay_us how long after it happened a logic may learn of an edge @param noise draws for readings that were never taken
   */
  constructor(
    private readonly window: Window,
    private readonly logics: readonly AnyLogic[],
    private readonly mounted: readonly MountedBeam[],
    private readonly delay_us: number,
    private readonly noise: Stream,
  ) {}

  why(subject: Subject): Why {
    const steps: HostStep[] = [];
    const base = this.judged(subject, NOTHING, (step) => steps.push(step));
    if (!reproduced(base, subject)) return { how: 'not reproduced', things: [] };
    const removals = REMOVALS.filter((removal) => this.applies(removal, subject));
    const helps = (set: ReadonlySet<Removal>): boolean =>
      this.differs(subject, set) && isRight(this.judged(subject, set), base, subject);
    const cause = causeOf(removals, helps);
    if (cause) return cause;
    const structure = this.structure(subject, base, steps);
    return structure === null ? { how: 'unexplained', things: [] } : { how: 'structure', things: [structure] };
  }

  private judged(subject: Subject, removals: ReadonlySet<Removal>, trace?: (step: HostStep) => void): Judged {
    const { window, delay_us } = this;
    const visits = remaining(window, subject.number, removals).map(({ visit }) => visit);
    return judge(this.logics[subject.logic]!, window.snapshots[subject.logic]!, this.told(subject, removals), visits, {
      end_us: window.end_us,
      delay_us,
      ...(trace && { trace }),
    });
  }

  private told(subject: Subject, removals: ReadonlySet<Removal>): Told[] {
    // Who else is there depends on who is asked about.
    const whose = removals.has('other bodies') ? String(subject.number) : '';
    const key = `${[...removals].join()} ${whose}`;
    let told = this.tolds.get(key);
    if (told === undefined) {
      told = play(this.window, remaining(this.window, subject.number, removals), removals, {
        noise: this.noise,
        reads: this.logics.some(({ readings }) => readings === true),
      });
      this.tolds.set(key, told);
    }
    return told;
  }

  /** Whether the logic is told anything else, or judged by anybody else, than before. */
  private differs(subject: Subject, removals: ReadonlySet<Removal>): boolean {
    if (removals.has('other bodies') || removals.has('leaf')) return true;
    return !sameTold(this.told(subject, removals), this.told(subject, NOTHING));
  }

  /** Whether there is anything of the kind to take away. */
  private applies(removal: Removal, subject: Subject): boolean {
    const here = remaining(this.window, subject.number, NOTHING);
    const swings = ({ visit }: Arrival): boolean => visit.kind === 'swing';
    if (removal === 'leaf') return here.some(swings);
    if (removal === 'other bodies') return here.some((one) => !swings(one) && one.visit.number !== subject.number);
    if (removal === 'noise' || removal === 'scan gaps') return true;
    const set = new Set([removal]);
    return here.some(({ body }) => hiddenLimbs(body, set).size > 0);
  }

  private structure(subject: Subject, base: Judged, steps: readonly HostStep[]): Structure | null {
    const { window } = this;
    if (window.rangers?.misled(window.door) === true) return 'background';
    const arrived = window.arrived.find(({ visit }) => visit.number === subject.number);
    if (arrived) {
      const { visit, body, passage } = arrived;
      const { breaks } = shadowOf(visit, body, passage, axisPaths(this.mounted));
      if (breaks.some((ofBeam) => ofBeam.length === 0)) return 'beam saw nothing';
      if (breaks.length === 2 && !together(breaks[0]!, breaks[1]!)) return 'shallower than the spacing';
      if (gaveUp(steps, window.snapshots[subject.logic]!.label, visit.enter_us, visit.leave_us)) return 'timeout';
    }
    if (this.busyAt(subject, steps)) return 'not at rest';
    if (!arrived) return null;
    return isRight(this.judged(subject, IDEAL), base, subject) ? null : 'rule';
  }

  /** Whether the logic was anywhere but in its first state just before. */
  private busyAt({ logic, time_us, number }: Subject, steps: readonly HostStep[]): boolean {
    const snapshot = this.window.snapshots[logic]!;
    const subject = this.logics[logic]!;
    // What a tally of nobody comes from began with the window.
    const last = number === null ? undefined : steps.findLast((step) => step.time_us < time_us);
    if (!last) return !snapshot.resting;
    return 'initial' in subject && last.label !== subject.label(subject.initial());
  }
}

function reproduced(base: Judged, { number, time_us, errors }: Subject): boolean {
  return number === null ? base.strays_us.includes(time_us) : base.wrong.get(number) === wrongOf(errors);
}

/** The subject came out right, and nobody else wrong who wasn't. */
function isRight(now: Judged, base: Judged, { number }: Subject): boolean {
  const strays = now.strays_us.length - base.strays_us.length;
  if (number === null ? strays >= 0 : strays > 0 || now.wrong.has(number)) return false;
  for (const [visit, units] of now.wrong) if (units > (base.wrong.get(visit) ?? 0)) return false;
  return true;
}

function sameTold(a: readonly Told[], b: readonly Told[]): boolean {
  return a.length === b.length && a.every((one, i) => same(one, b[i]!));
}

function same(a: Told, b: Told): boolean {
  if (a.kind !== b.kind || a.time_us !== b.time_us) return false;
  if (a.kind === 'down' || b.kind === 'down') return true;
  if (a.mask !== b.mask) return false;
  const read = a.kind === 'input' ? a.readings : undefined;
  const other = b.kind === 'input' ? b.readings : undefined;
  return read?.join() === other?.join();
}

/** Whether a timeout changed the logic's state while somebody was there. */
function gaveUp(steps: readonly HostStep[], first: string, from_us: number, to_us: number): boolean {
  let label = first;
  for (const step of steps) {
    if (step.wake && step.label !== label && step.time_us >= from_us && step.time_us <= to_us) return true;
    label = step.label;
  }
  return false;
}

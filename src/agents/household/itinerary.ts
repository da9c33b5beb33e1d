/**
 * Where somebody is next, and until when: a semi-Markov process by time of day, between the fixed times of a day.
 *
 * Fixed times (sleep, work or school, meals) are laid out day by day, each moved by a draw of its own. Between them the
 * next room is drawn from the row of the hour and of the room one is in, and a stay there; what is fixed next cuts it
 * short. A pure function of the stream: the n-th free move always uses the n-th draws.
 */
import { exponential, lognormal, normal, pick, runningTotals } from '../../engine/distributions.js';
import { exp } from '../../engine/arithmetic.js';
import type { Stream } from '../../engine/stream.js';
import { MINUTE_US, clockHours } from '../../engine/time.js';
import { NIGHT_VISIT, STAY_SPREAD } from '../figures/household.js';
import type { Calendar } from './calendar.js';
import type { Mind, Stay } from './mover.js';
import type { Places } from './places.js';
import type { Habits } from './schema.js';

/** A time that is fixed for the day. */
interface Appointment {
  readonly what: 'sleep' | 'away' | 'meal' | 'wake';
  readonly start_us: number;
  readonly end_us: number;
  readonly word: string;
}

/** Of two that overlap the one higher up holds. */
const RANK = { away: 0, wake: 1, sleep: 2, meal: 3 } as const;
const PURPOSE = { away: 0, meal: 100, sleep: 200, wakes: 300 } as const;

export class Itinerary implements Mind {
  private readonly days = new Map<number, readonly Appointment[]>();
  private moves = 0;
  /** When somebody last brought them home from where their day had them. */
  private fetched_us = -Infinity;
  /** By the room they are for, each in order of the clock. */
  private readonly rows: readonly Habits['moves'][];
  private readonly daily: Stream;
  private readonly free: Stream;

  /** @param activity scales how often free moves come @param bedroom where sleep takes them, or null without one */
  constructor(
    private readonly habits: Habits,
    private readonly places: Places,
    private readonly bedroom: number | null,
    private readonly calendar: Calendar,
    private readonly activity: number,
    stream: Stream,
  ) {
    const sorted = habits.moves.toSorted((a, b) => (a.from < b.from ? -1 : 1));
    const afters = [...new Set(sorted.map(({ after }) => after))];
    this.rows = afters.map((one) => sorted.filter(({ after }) => after === one));
    this.daily = stream.child('day');
    this.free = stream.child('move');
  }

  /** Where to be from `time_us` on, for somebody in `room`. */
  next(time_us: number, room: number): Stay {
    const { current, upcoming_us, cut_us } = this.appointments(time_us, room);
    const fixed = current && this.goalOf(current.word, room);
    if (current && fixed != null)
      return { room: fixed, until_us: Math.min(current.end_us, cut_us), asleep: current.what === 'sleep' };
    const n = this.moves++;
    const chance = this.free.nth(n);
    const choices = this.choices(time_us, room);
    if (choices.length === 0) return { room, until_us: Math.min(upcoming_us, time_us + 30 * MINUTE_US), asleep: false };
    const { goal, stay_min } = choices[pick(chance.at(0), runningTotals(choices.map(({ share }) => share)))] as Choice;
    const { sigma } = STAY_SPREAD.value;
    const median = stay_min / this.activity / exp((sigma * sigma) / 2);
    const stay_us = Math.max(1, Math.round(lognormal(chance.at(1), median, sigma) * MINUTE_US));
    return { room: goal, until_us: Math.min(upcoming_us, time_us + stay_us), asleep: false };
  }

  /** Whether they sleep or are away by appointment at that time: not free to be asked for anything. */
  isFree(time_us: number): boolean {
    const { current } = this.appointments(time_us);
    return current === undefined || current.what === 'meal';
  }

  isAway(time_us: number): boolean {
    return this.appointments(time_us).current?.what === 'away';
  }

  fetched(time_us: number): void {
    this.fetched_us = time_us;
  }

  private choices(time_us: number, room: number): Choice[] {
    const rows = this.rowsAt(this.calendar.hourOf(time_us));
    const own = rows.find(({ after }) => after !== undefined && this.places.all(after).includes(room));
    const row = own ?? rows.find(({ after }) => after === undefined);
    return (row?.go ?? []).flatMap(({ to, share, stay_min }) => {
      const goal = this.goalOf(to, room);
      return goal === null || goal === room || share === 0 ? [] : [{ goal, share, stay_min }];
    });
  }

  /** Rows that hold at an hour: of each `after` the last that has begun, or the day's last before the first begins. */
  private rowsAt(hour: number): Habits['moves'] {
    return this.rows.map((rows) => (rows.findLast(({ from }) => clockHours(from) <= hour) ?? rows.at(-1)) as Row);
  }

  private goalOf(word: string, room: number): number | null {
    if (word === 'bedroom' && this.bedroom !== null) return this.bedroom;
    if (word === 'dining' && this.places.all('dining').length === 0) return this.places.nearest('kitchen', room);
    return this.places.nearest(word, room);
  }

  /** What holds at a time, when the next thing begins, and when what holds is cut short by what ranks above it. */
  private appointments(
    time_us: number,
    room?: number,
  ): { current: Appointment | undefined; upcoming_us: number; cut_us: number } {
    const today = this.calendar.dayOf(time_us);
    let current: Appointment | undefined;
    let upcoming_us = Infinity;
    const later: Appointment[] = [];
    for (let day = today - 1; day <= today + 1; day++) {
      for (const one of this.dayPlan(day)) {
        // A house may lack the room: nobody gets up at night for a bathroom that isn't there.
        if (room !== undefined && this.goalOf(one.word, room) === null) continue;
        if (one.start_us > time_us) {
          upcoming_us = Math.min(upcoming_us, one.start_us);
          later.push(one);
        } else if (one.what === 'away' && one.start_us <= this.fetched_us && this.fetched_us < one.end_us) continue;
        else if (one.end_us > time_us && (!current || RANK[one.what] < RANK[current.what])) current = one;
      }
    }
    for (const day of this.days.keys()) if (day < today - 1) this.days.delete(day);
    const rank = current ? RANK[current.what] : -1;
    const cut_us = Math.min(Infinity, ...later.filter(({ what }) => RANK[what] < rank).map(({ start_us }) => start_us));
    return { current, upcoming_us, cut_us };
  }

  private dayPlan(day: number): readonly Appointment[] {
    let plan = this.days.get(day);
    if (!plan) this.days.set(day, (plan = this.layOut(day)));
    return plan;
  }

  private layOut(day: number): Appointment[] {
    const { calendar, habits } = this;
    const chance = this.daily.nth(day + 1);
    const moved = (clock: string, purpose: number): number =>
      calendar.atClock(day, clock) + Math.round(normal(chance.at(purpose), 0, habits.spread_min) * MINUTE_US);
    const movedEnd = (from: string, to: string, purpose: number): number =>
      calendar.endOf(day, from, to) + moved(to, purpose) - calendar.atClock(day, to);
    const plan: Appointment[] = [];
    habits.away.forEach(({ from, to, days }, i) => {
      if (!calendar.falls(day, days)) return;
      const start_us = moved(from, PURPOSE.away + 2 * i);
      const end_us = movedEnd(from, to, PURPOSE.away + 2 * i + 1);
      if (end_us > start_us) plan.push({ what: 'away', start_us, end_us, word: 'outside' });
    });
    habits.meals.forEach(({ at, lasts_min, in: word, days }, i) => {
      if (!calendar.falls(day, days)) return;
      const start_us = moved(at, PURPOSE.meal + i);
      plan.push({ what: 'meal', start_us, end_us: start_us + Math.round(lasts_min * MINUTE_US), word });
    });
    if (habits.sleep) {
      const { from, to, wakes_per_night } = habits.sleep;
      const start_us = moved(from, PURPOSE.sleep);
      const end_us = movedEnd(from, to, PURPOSE.sleep + 1);
      if (end_us > start_us) {
        plan.push({ what: 'sleep', start_us, end_us, word: 'bedroom' });
        const mean_us = (end_us - start_us) / wakes_per_night;
        let at_us = start_us;
        for (let k = 0; wakes_per_night > 0; k++) {
          at_us += Math.round(exponential(chance.at(PURPOSE.wakes + k), mean_us));
          const back_us = at_us + NIGHT_VISIT.value * MINUTE_US;
          if (back_us >= end_us) break;
          plan.push({ what: 'wake', start_us: at_us, end_us: back_us, word: 'bathroom' });
          at_us = back_us;
        }
      }
    }
    return plan;
  }
}

type Row = Habits['moves'][number];

interface Choice {
  readonly goal: number;
  readonly share: number;
  readonly stay_min: number;
}

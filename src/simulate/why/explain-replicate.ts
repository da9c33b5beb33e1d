/** A replicate once more, to look closely at what went wrong in it. */
import type { OutsideLogics } from '../../counter/make-logic.js';
import { Stream } from '../../engine/stream.js';
import type { Design } from '../../scenario/schema.js';
import type { Explained, WhyRecord } from '../../score/why.js';
import type { StrayTally, WrongKept, WrongVisit } from '../../score/wrong-visits.js';
import { logicsAt } from '../logics-at.js';
import type { Arrival } from '../parties.js';
import { mountedBeams } from '../plan.js';
import { watchReplicate } from '../watch-replicate.js';
import type { Moment } from '../watch.js';
import { Explainer, type Subject } from './explain.js';
import type { Window } from './window.js';

/** A doorway that fills and never empties is not taken apart. */
const MOST_VISITS = 24;

/** @param most how many of one logic at one door are explained at most: evenly spread ones, if there are more */
export function explainReplicate(
  design: Design,
  number: number,
  wrong: WrongKept,
  most: number,
  outside?: OutsideLogics,
): WhyRecord {
  const wanted = new Map<string, Subject[]>();
  const explained: Explained[] = [];
  const keep = (door: number, subject: Subject, why: Explained['why']): void =>
    void explained.push({ door, ...subject, why });
  for (const { door, opened_us, subject } of chosen(wrong, most)) {
    const key = `${door} ${opened_us}`;
    // Before anybody has come nothing is there but noise.
    if (opened_us < 0) keep(door, subject, { how: 'only', things: ['noise'] });
    else if (wanted.has(key)) wanted.get(key)!.push(subject);
    else wanted.set(key, [subject]);
  }
  if (wanted.size === 0) return { explained, all: wrong.all };

  const stream = Stream.root(String(design.seed)).child('why', String(number));
  const logics = design.doors.map((door) => logicsAt(design, door, outside));
  const mounted = design.doors.map((door) => mountedBeams(design, door));
  let open: Opened[] = [];
  let newest: Arrival | null = null;
  const close = (time_us: number): void => {
    const over = open.filter(({ end_us }) => end_us < time_us);
    if (over.length === 0) return;
    open = open.filter((one) => !over.includes(one));
    for (const one of over) {
      const { door, subjects, arrived, delay_us } = one;
      const crowded = arrived.filter(({ visit }) => visit.door === door).length > MOST_VISITS;
      const explainer = new Explainer(one, logics[door]!, mounted[door]!, delay_us, stream.child(String(one.start_us)));
      for (const subject of subjects)
        keep(door, subject, crowded ? { how: 'unexplained', things: [] } : explainer.why(subject));
    }
  };
  watchReplicate(
    design,
    number,
    {
      visit(visit, body, passage) {
        close(visit.enter_us);
        newest = { visit, body, passage };
        for (const one of open) join(one, newest);
      },
      opens(door, start_us, moment) {
        const key = `${door} ${start_us}`;
        const subjects = wanted.get(key);
        if (!subjects || !newest) return;
        wanted.delete(key);
        const latency_us = Math.max(...logics[door]!.map((logic) => logic.latency_us));
        const opened = openedAt(door, start_us, moment, subjects, latency_us);
        join(opened, newest);
        open.push(opened);
      },
    },
    () => wanted.size === 0 && open.length === 0,
    outside,
  );
  close(Infinity);
  // Everything asked about is answered, also what didn't come about again.
  for (const [key, subjects] of wanted)
    for (const subject of subjects) keep(Number.parseInt(key, 10), subject, { how: 'not reproduced', things: [] });
  return { explained, all: wrong.all };
}

/** A window that may still grow. */
interface Opened extends Window {
  end_us: number;
  readonly arrived: Arrival[];
  readonly subjects: readonly Subject[];
  readonly delay_us: number;
  readonly latency_us: number;
}

function openedAt(
  door: number,
  start_us: number,
  moment: Moment,
  subjects: readonly Subject[],
  latency_us: number,
): Opened {
  return {
    door,
    start_us,
    end_us: Math.max(...subjects.map(({ time_us }) => time_us)) + moment.delay_us + latency_us + 1,
    snapshots: moment.snapshots(),
    sensors: moment.sensors(),
    rangers: moment.rangers(),
    arrived: [],
    subjects,
    delay_us: moment.delay_us,
    latency_us,
  };
}

function join(opened: Opened, arrived: Arrival): void {
  const { visit } = arrived;
  if (visit.door !== opened.door && opened.rangers === null) return;
  opened.arrived.push(arrived);
  if (visit.door !== opened.door) return;
  opened.end_us = Math.max(opened.end_us, visit.leave_us + opened.delay_us + opened.latency_us + 1);
}

interface Chosen {
  readonly door: number;
  readonly opened_us: number;
  readonly subject: Subject;
}

function chosen({ visits, strays, all }: WrongKept, most: number): Chosen[] {
  const found = [...visits.map(ofVisit), ...strays.map(ofStray)].sort((a, b) => a.subject.time_us - b.subject.time_us);
  return all.flatMap((logics, door) =>
    logics.flatMap((_, logic) => {
      const own = found.filter((one) => one.door === door && one.subject.logic === logic);
      const step = Math.max(1, own.length / most);
      return own.filter((_one, i) => Math.floor(i / step) !== Math.floor((i - 1) / step));
    }),
  );
}

function ofVisit({ door, logic, opened_us, number, enter_us, missed, reversed, extra, invented }: WrongVisit): Chosen {
  const errors = { missed, reversed, extra, invented };
  return { door, opened_us, subject: { logic, number, time_us: enter_us, errors } };
}

function ofStray({ door, logic, opened_us, time_us }: StrayTally): Chosen {
  const errors = { missed: 0, reversed: 0, extra: 0, invented: 1 };
  return { door, opened_us, subject: { logic, number: null, time_us, errors } };
}

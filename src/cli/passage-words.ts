/** A traced passage in words: who it is, what truly happened, what each logic made of it. */
import { capital, joined, metres, plain, plural } from '../report/words.js';
import type { PassageTrace, TracedLogic, TracedReading, TracedVisit } from '../simulate/traced.js';
import { speed } from './unit-words.js';
import { rounded } from './lines.js';

const KIND_WORDS: Readonly<Record<string, string>> = {
  through: ' going through',
  abreast: ', one of two together',
  'close-behind': ', one of two close behind one another',
  against: ', one of two from opposite sides',
  'turn-back': ' turning back',
  linger: ' lingering',
  reach: ' reaching through',
  'at-heel': ', with a pet at heel',
  swing: ' swinging',
};

/** 'adult going through, forward: 1.74 m tall, 0.87 m/s'. */
function visitWords({ who, kind, direction, stature_m, speed_mps, persons }: TracedVisit): string {
  const aboard = persons === 1 ? '' : `, ${plural(persons, 'person')} in one body`;
  return (
    `${plain(who)}${KIND_WORDS[kind] ?? ` ${kind}`}, ${direction}: ${metres(Math.round(stature_m * 100) / 100)} tall, ` +
    `${speed(speed_mps)}${aboard}`
  );
}

/** What is true of a visit. */
export function truthWords({ persons, cross_us, direction, kind }: TracedVisit): string {
  if (cross_us !== null) return `${plural(persons, 'person')} went through, ${direction}`;
  if (kind === 'reach') return 'nobody went through: reached through with an arm and went back';
  return kind === 'linger' ? 'nobody went through: lingered and went back' : 'nobody went through: turned back';
}

/** Whether a logic was right about all of it, and what it said. */
export function verdictWords(
  trace: PassageTrace,
  logic: TracedLogic,
): { readonly right: boolean; readonly text: string } {
  const wrongs: string[] = [];
  const said = { forward: 0, backward: 0 };
  for (const step of logic.steps) for (const tally of step.tallies) said[tally]++;
  let [missed, turned, extra] = [0, 0, 0];
  logic.verdicts.forEach((verdict, i) => {
    const visit = trace.visits[i] as TracedVisit;
    extra += verdict.extra;
    if (visit.cross_us === null) {
      extra += verdict.forward + verdict.backward;
      return;
    }
    missed += verdict.nothing;
    turned += visit.direction === 'forward' ? verdict.backward : verdict.forward;
  });
  if (missed > 0) wrongs.push(`${missed} missed`);
  if (turned > 0) wrongs.push(`${turned} counted the wrong way round`);
  if (extra > 0) wrongs.push(`${extra} too many`);
  if (logic.of_nobody > 0) wrongs.push(`${logic.of_nobody} out of thin air`);
  const counted = (['forward', 'backward'] as const).flatMap((way) => (said[way] > 0 ? [`${said[way]} ${way}`] : []));
  const text = `counted ${counted.length > 0 ? joined(counted) : 'nobody'}`;
  return { right: wrongs.length === 0, text: wrongs.length === 0 ? text : `${text}: ${joined(wrongs)}` };
}

/** 'A 990–1,324 ms, B 1,114–1,488 ms': when beams were truly broken by one body. */
export function breaksWords(trace: PassageTrace, visit: TracedVisit): string {
  return trace.beams
    .map(({ name }, i) => {
      const breaks = visit.true_breaks_us[i] ?? [];
      const spans: string[] = [];
      for (let k = 0; k < breaks.length; k += 2)
        spans.push(`${inMs(breaks[k] as number)}–${inMs(breaks[k + 1] as number)}`);
      return `${plain(name)} ${spans.length > 0 ? `${joined(spans)} ms` : 'never'}`;
    })
    .join('; ');
}

/** 'A was read 38 times while somebody was near enough to its axis, every 30.0 ms; nearest 0.312 m at 1,520.3 ms': one line a ranger. */
export function readingsWords({ beams, readings }: PassageTrace): string[] {
  return beams.flatMap(({ name, kind }, i) => {
    if (kind === 'light-barrier') return [];
    const own = readings.filter(({ beam }) => beam === i);
    if (own.length === 0) return [`${plain(name)} was not read while anybody was near enough to its axis`];
    const gaps = own.slice(1).map(({ time_us }, k) => time_us - (own[k] as TracedReading).time_us);
    const usual = gaps.toSorted((a, b) => a - b)[gaps.length >> 1];
    const every = usual === undefined ? '' : `, every ${rounded(usual / 1000, 1)}\u00a0ms`;
    const silent = own.filter(({ distance_um }) => distance_um === null).length;
    const heard = own.filter(({ distance_um }) => distance_um !== null);
    const nearest = heard.toSorted((a, b) => Number(a.distance_um) - Number(b.distance_um))[0];
    const near = nearest
      ? `; nearest ${metres(Math.round(Number(nearest.distance_um) / 1000) / 1000)} at ${inMs(nearest.time_us)}\u00a0ms`
      : '';
    const without = silent > 0 ? `; ${silent} of them without echo` : '';
    return [
      `${plain(name)} was read ${plural(own.length, 'time')} while somebody was near enough to its axis${every}${near}${without}`,
    ];
  });
}

/** Whole milliseconds with a tenth. */
export function inMs(time_us: number): string {
  return (time_us / 1000).toFixed(1);
}

/** 'beams A at 0.95 m and B at 0.95 m, 0.10 m apart, wired to interrupts'. */
export function doorWords({ door, width_m, beams, poll_ms }: PassageTrace): string {
  const list = joined(beams.map(({ name, height_m }) => `${plain(name)} ${metres(height_m)} high`));
  const places = beams.map((beam) => beam.at_m);
  const apart = Math.round((Math.max(...places) - Math.min(...places)) * 1e6) / 1e6;
  const spacing = beams.length > 1 ? `, ${metres(apart)} apart` : '';
  const barriers = beams.some(({ kind }) => kind === 'light-barrier');
  const wired = poll_ms === null ? 'wired to interrupts' : `read every ${rounded(poll_ms, 1)}\u00a0ms`;
  const read = barriers ? wired : 'read turn by turn';
  return `Door ${plain(door)}, ${metres(width_m)} wide; ${beams.length > 1 ? 'beams' : 'beam'} ${list}${spacing}, ${read}.`;
}

export function headline(trace: PassageTrace): string {
  return trace.visits.map((visit) => capital(visitWords(visit))).join('\n');
}

/** A traced passage as a time-line for a terminal: levels, states and tallies, instant by instant. */
import { plain } from '../report/words.js';
import type { PassageTrace, TracedStep, TracedVisit } from '../simulate/traced.js';
import type { Paint } from './io.js';
import { columns, folded } from './lines.js';
import { breaksWords, doorWords, headline, inMs, readingsWords, truthWords, verdictWords } from './passage-words.js';

/** Logics side by side in one time-line; more get another below. */
const SIDE_BY_SIDE = 4;
/** Instants shown; a logic with a quick timer makes thousands. */
const MOST_ROWS = 400;

export function passageText(trace: PassageTrace, paint: Paint): string {
  const blocks: string[] = [];
  for (let from = 0; from < Math.max(1, trace.logics.length); from += SIDE_BY_SIDE)
    blocks.push(timeLine(trace, from, from + SIDE_BY_SIDE, paint));
  const { number } = trace;
  return [
    `${paint.bold(headline(trace))}\n${folded(`${doorWords(trace)} This is number ${number} of such passages; --number ${number + 1} shows the next.`)}`,
    ...blocks,
    truthText(trace, paint),
  ].join('\n');
}

/** Time 0 is when the first one enters the doorway zone. */
function timeLine(trace: PassageTrace, from: number, to: number, paint: Paint): string {
  const logics = trace.logics.slice(from, to);
  const notes = notesOf(trace);
  const steps = logics.map((logic) => byTime(logic.steps));
  const times = [
    ...new Set([
      ...notes.keys(),
      ...trace.inputs.map((input) => input.time_us),
      ...logics.flatMap((logic) => logic.steps.map((step) => step.time_us)),
    ]),
  ].toSorted((a, b) => a - b);

  const levels = trace.beams.map(() => 0);
  const inputs = new Map(trace.inputs.map((input) => [input.time_us, input.levels]));
  const states = logics.map((logic) => logic.start);
  const rows = times.slice(0, MOST_ROWS).map((time) => {
    inputs.get(time)?.forEach((level, beam) => (levels[beam] = level));
    const cells = steps.map((own, l) => {
      const now = own.get(time) ?? [];
      const tallies = now.flatMap((step) => step.tallies);
      const before = states[l] as string;
      const state = now.at(-1)?.state ?? before;
      states[l] = state;
      const timeout = now.some((step) => step.timeout) ? ' (timeout)' : '';
      const shown = state === before && time !== times[0] ? paint.dim('│') : plain(state) + timeout;
      return tallies.length === 0 ? shown : `${plain(state)}${timeout} ${paint.bold(`+1 ${tallies.join(', +1 ')}`)}`;
    });
    const marks = levels.map((level) => (level === 1 ? '█' : paint.dim('·')));
    return [inMs(time), ...marks, ...cells, (notes.get(time) ?? []).join('; ')];
  });

  const head = ['ms', ...trace.beams.map(({ name }) => plain(name)), ...logics.map(({ logic }) => plain(logic)), ''];
  const align = head.map((_, i) => (i === 0 ? ('right' as const) : ('left' as const)));
  const rest = times.length > MOST_ROWS ? paint.dim(`… and ${times.length - MOST_ROWS} more instants\n`) : '';
  return columns([head.map((text) => paint.dim(text)), ...rows], align) + rest;
}

function byTime(steps: readonly TracedStep[]): Map<number, TracedStep[]> {
  const map = new Map<number, TracedStep[]>();
  for (const step of steps) {
    const own = map.get(step.time_us);
    if (own) own.push(step);
    else map.set(step.time_us, [step]);
  }
  return map;
}

/** What happened in the doorway, and at the sensors where the controller only reads now and then. */
function notesOf(trace: PassageTrace): Map<number, string[]> {
  const notes = new Map<number, string[]>();
  const note = (time: number, text: string): void => void notes.set(time, [...(notes.get(time) ?? []), text]);
  trace.visits.forEach((visit, i) => {
    const who = trace.visits.length > 1 ? `${i + 1}: ` : '';
    note(visit.enter_us, `${who}enters the doorway`);
    if (visit.cross_us !== null) note(visit.cross_us, `${who}trunk passes the door plane`);
    note(visit.leave_us, `${who}leaves ${visit.cross_us === null ? 'where it came from' : 'at the other end'}`);
  });
  if (trace.poll_ms !== null)
    for (const { time_us, beam, level } of trace.edges)
      note(time_us, `sensor ${plain(trace.beams[beam]?.name ?? '')} ${level === 1 ? 'broken' : 'clear'}`);
  return notes;
}

function truthText(trace: PassageTrace, paint: Paint): string {
  const truth = trace.visits.flatMap((visit: TracedVisit, i) => {
    const who = trace.visits.length > 1 ? `${i + 1}: ` : '';
    return [
      `${paint.bold('Truth')}  ${who}${truthWords(visit)}\n`,
      folded(
        `${trace.beams.some(({ kind }) => kind !== 'light-barrier') ? 'somebody on the axis' : 'truly broken'}: ${breaksWords(trace, visit)}`,
        '       ',
      ),
    ];
  });
  const verdicts = trace.logics.map((logic) => {
    const { right, text } = verdictWords(trace, logic);
    return [right ? paint.green('right') : paint.red('wrong'), plain(logic.logic), text];
  });
  const read = readingsWords(trace).map((words) => folded(words, '       '));
  return truth.join('') + read.join('') + columns(verdicts, ['left', 'left', 'left']);
}

/**
 * The lines that a program of the user's own and we say to each other, version 1; docs/own-logic.md tells it to users.
 *
 *     → jambeam-logic 1          ← jambeam-logic 1
 *     → door front               ← latency_us 0
 *     → beam A light-barrier     ← longest_timeout_us 10000000
 *     → beam B light-barrier     ← ready
 *     → ready
 *     → 12500000 10
 *     → 13100000 00              ← forward 13100000
 *     → flush 1                  ← flush 1
 */
import { WAKE_LIMIT_US } from '../counter/host-check.js';
import { bitsOf } from '../counter/levels.js';
import type { Direction, Readings } from '../counter/logic.js';
import type { DoorAbout } from '../counter/make-logic.js';
import { quote } from '../engine/printable.js';
import { LONGEST_LABEL } from './code.js';

const GREETING = 'jambeam-logic 1';
export const READY = 'ready';

/** What a program says of itself; what it doesn't say has the defaults. */
export interface ProgramAbout {
  readonly latency_us: number;
  /** It gets unchanged lines so often while it may wait for something; 0 for never. */
  readonly tick_us: number;
  /** So long after the last change there are ticks. */
  readonly longest_timeout_us: number;
  /** Whether it wants a line at every reading of a ranger too. */
  readonly readings: boolean;
  /** Label of the state it starts in; null if it tells no states. */
  readonly state: string | null;
}

export function helloText({ name, beams }: DoorAbout): string {
  const lines = [GREETING, `door ${name}`, ...beams.map((beam) => `beam ${beam.name} ${beam.kind}`), READY];
  return `${lines.join('\n')}\n`;
}

/** @param lines of the program's answer, without the last, `ready`. @returns a text if something is wrong with them */
export function programAbout(lines: readonly string[]): ProgramAbout | string {
  const about = { latency_us: 0, tick_us: 0, longest_timeout_us: 0, readings: false, state: null as string | null };
  if (lines[0] !== GREETING) return `expected \`${GREETING}\` as its first line, found ${foundText(lines[0])}`;
  for (const line of lines.slice(1)) {
    const [key, value] = cut(line);
    if (key === 'latency_us' || key === 'tick_us' || key === 'longest_timeout_us') {
      const time = wholeNumber(value);
      if (time === null || time >= WAKE_LIMIT_US)
        return `${key}: expected whole microseconds, 0 to below 2^31, found ${foundText(value)}`;
      about[key] = time;
    } else if (key === 'readings' && (value === 'yes' || value === 'no')) about.readings = value === 'yes';
    else if (key === 'state') about.state = value.slice(0, LONGEST_LABEL);
    else
      return `expected latency_us, tick_us, longest_timeout_us, readings yes, state or ready, found ${foundText(line)}`;
  }
  return about;
}

/** One instant: its time, the levels with the first beam first, and readings in micrometres if they are asked for. */
export function lineText({ time_us, mask, readings }: Instant, beams: number): string {
  let line = `${time_us} ${bitsOf(mask, beams)}`;
  if (readings) for (let i = 0; i < beams; i++) line += ` ${readings[i] ?? '-'}`;
  return `${line}\n`;
}

interface Instant {
  readonly time_us: number;
  readonly mask: number;
  readonly readings: Readings | undefined;
}

export type ProgramSaid =
  | { readonly what: 'tally'; readonly time_us: number; readonly direction: Direction }
  | { readonly what: 'state'; readonly time_us: number; readonly label: string };

/** One line of an answer; a text if it is none. */
export function programSaid(line: string): ProgramSaid | string {
  const [key, rest] = cut(line);
  const [time, label] = cut(rest);
  const time_us = wholeNumber(time);
  if (time_us !== null && label === '' && (key === 'forward' || key === 'backward'))
    return { what: 'tally', time_us, direction: key };
  if (time_us !== null && key === 'state') return { what: 'state', time_us, label: label.slice(0, LONGEST_LABEL) };
  return `expected \`forward TIME\`, \`backward TIME\`, \`state TIME LABEL\` or the \`flush\` it was sent, found ${foundText(line)}`;
}

function cut(line: string): [first: string, rest: string] {
  const at = line.indexOf(' ');
  return at < 0 ? [line, ''] : [line.slice(0, at), line.slice(at + 1)];
}

function wholeNumber(text: string): number | null {
  return /^-?\d{1,16}$/.test(text) && Number.isSafeInteger(Number(text)) ? Number(text) : null;
}

function foundText(text: string | undefined): string {
  return text === undefined ? 'nothing' : quote(text);
}

/** A replayed log in words: what was repaired in it, and what can't be known of it. */
import type { ReplayedLog } from '../score/figures.js';
import { decimal, joined, plain, plural } from './words.js';

const SHOWN = 5;

/** What was repaired in a log, and what is not known of it. */
export function repairSentences(log: ReplayedLog): string[] {
  return [
    log.out_of_order > 0 &&
      `${plural(log.out_of_order, 'row')} came late and ${log.out_of_order === 1 ? 'was' : 'were'} put in order.`,
    log.duplicates > 0 &&
      `${plural(log.duplicates, 'row')} ${log.duplicates === 1 ? 'was' : 'were'} there twice and counted once.`,
    log.repeated > 0 &&
      `${plural(log.repeated, 'level')} came again without a change in between: an edge may be missing before each.`,
    log.wraps > 0 && `The counter turned ${plural(log.wraps, 'time')} and was unwrapped.`,
    log.silences.length > 0 &&
      `${plural(log.silences.length, 'silence')} may hide whole turns of the counter; durations across ${log.silences.length === 1 ? 'it' : 'them'} are not known, counts go on: ${joined(
        log.silences
          .slice(0, SHOWN)
          .map(({ line, at_least_us }) => `before line ${line}, ${decimal(at_least_us / 60_000_000, 1)} min at least`),
      )}${log.silences.length > SHOWN ? ', and more' : ''}.`,
    log.unfinished.length > 0 &&
      `When the log ended ${joined(log.unfinished.map(({ door, beam }) => `beam ${plain(beam)} of door ${plain(door)}`))} ${log.unfinished.length === 1 ? 'was' : 'were'} still broken: who was there is not counted.`,
  ].filter((one) => one !== false);
}

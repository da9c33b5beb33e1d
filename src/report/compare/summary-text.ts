/** What a comparison comes to, in a few lines for the terminal. */
import { foldedLines } from '../plain-text.js';
import { bare, decimal, estimateWords } from '../words.js';
import { bestOf } from './best.js';
import { judged } from './differences.js';
import { ALL_ROOMS, WRONG, allHaveRooms } from './measures.js';
import { type CompareRun, labelWords } from './runs.js';
import { unwise } from './unwise.js';
import { compareVerdict } from './verdict.js';
import { sizeWords } from './words.js';

/** Width text is wrapped to, characters. */
const WIDTH = 78;
/** Runs told one by one. */
const TOLD = 4;

/** Ends with a line break. */
export function compareSummaryText(runs: readonly CompareRun[]): string {
  const { headline } = compareVerdict(runs);
  const [first = ''] = unwise(runs);
  const lines = [
    headline,
    ...wrongLines(runs),
    ...roomLine(runs),
    `Unwise to conclude: ${first.charAt(0).toLowerCase()}${first.slice(1)}`,
  ];
  return bare(`${lines.map((text) => foldedLines(text, WIDTH).join('\n')).join('\n')}\n`);
}

function wrongLines(runs: readonly CompareRun[]): string[] {
  const best = bestOf(WRONG, runs);
  if (best === null) return [];
  const all = [...best.worse, ...best.unsure, ...best.alike];
  const lines = all.slice(0, TOLD).map(({ run, behind: { atOnce } }) => {
    const told =
      { worse: '', alike: ', the same in every replicate' }[judged(WRONG, atOnce) as string] ?? ', which may be chance';
    return `${labelWords(run)} against ${labelWords(best.run)}: ${sizeWords(atOnce, 'number')} wrong per 100 crossings ${(atOnce.value ?? 0) < 0 ? 'less' : 'more'}${told}`;
  });
  return all.length > TOLD ? [...lines, `… and ${all.length - TOLD} more`] : lines;
}

function roomLine(runs: readonly CompareRun[]): string[] {
  const best = allHaveRooms(runs) ? bestOf(ALL_ROOMS, runs) : null;
  if (best === null) return [];
  const each = runs.map(
    (run) => `${labelWords(run)} ${estimateWords(ALL_ROOMS.estimate(run)!, 'share').value ?? decimal(Number.NaN)}`,
  );
  const told =
    best.unsure.length === 0 && best.alike.length === 0
      ? `${labelWords(best.run)} longest, told from chance`
      : 'the longest can’t be told from all others';
  return [`All rooms right at once: ${each.join(', ')} of the time; ${told}`];
}

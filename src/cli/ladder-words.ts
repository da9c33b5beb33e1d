/** The height ladder as a table with bars, and what it shows in sentences. Nothing is said that no rung shows. */
import { capital, joined, metres } from '../report/words.js';
import type { LadderCell, LadderRow } from '../simulate/ladder.js';
import type { Paint } from './io.js';
import { columns, rounded } from './lines.js';

const BAR = 10;
/** Wrong counts per 100 by which a height may fall behind the best and still belong to the best band. */
const AS_GOOD = 1;
/** A best height with more wrong counts per 100 than this is no good one. */
const NO_GOOD = 20;

const PEOPLE: Readonly<Record<string, string>> = { adult: 'adults', child: 'children' };

/** Highest rung first, as on a door frame. */
export function ladderTable(rows: readonly LadderRow[], paint: Paint): string {
  const who = rows[0]?.cells.map((cell) => cell.who) ?? [];
  const head = ['height', ...who.flatMap((name) => [name, 'missed', 'false']), 'wrong, worse of both'];
  const body = rows
    .toSorted((a, b) => b.height_m - a.height_m)
    .map((row) => {
      const cells = [
        metres(row.level ? row.height_m : Math.round(row.height_m * 100) / 100),
        ...row.cells.flatMap((cell) => [
          decimal2(cell.breaks_per_crossing),
          perHundred(cell.missed_per_100),
          perHundred(falseOf(cell)),
        ]),
        bar(worstOf(row), paint) + (row.own ? (row.level ? ' ◀ yours' : ' ◀ yours, as they are') : ''),
      ];
      return row.own ? cells.map((cell) => paint.bold(cell)) : cells;
    });
  const align = head.map((_, i) => (i < head.length - 1 ? ('right' as const) : ('left' as const)));
  return columns([head.map((text) => paint.dim(text)), ...body], align);
}

/** What the rungs show of each kind of people, of all of them together, and of the design's own height. */
export function ladderSentences(rows: readonly LadderRow[]): string[] {
  const ordered = rows.toSorted((a, b) => a.height_m - b.height_m);
  const names = (ordered[0]?.cells ?? []).map((cell) => cell.who).filter((who) => who in PEOPLE);
  // Of one height there is nothing to choose.
  if (ordered.length === 1) return ownSentence(ordered, names);
  const sentences = names.flatMap((who) => walkerSentences(ordered, who));
  const together = bandOf(ordered, worstOf);
  if (names.length > 1 && together) {
    const where = bandWords(ordered, together);
    const worst = Math.max(...ordered.slice(together.from, together.to + 1).map(worstOf));
    sentences.push(
      together.best > NO_GOOD
        ? `No height suits all: the best for both is ${metres(ordered[together.at]!.height_m)}, ${eachWords(ordered[together.at]!, names)}.`
        : `Best for all of them ${where}: at most ${wrongWords(worst)} of either.`,
    );
  }
  return [...sentences, ...ownSentence(ordered, names)];
}

function ownSentence(rows: readonly LadderRow[], names: readonly string[]): string[] {
  const own = rows.find((row) => row.own);
  if (!own) return [];
  const yours = own.level ? `At your ${metres(own.height_m)}` : 'With your beams as they are, at their own heights';
  return [`${yours}: ${eachWords(own, names)}.`];
}

function walkerSentences(rows: readonly LadderRow[], who: string): string[] {
  const wrongAt = (row: LadderRow): number => cellOf(row, who)?.wrong_per_100 ?? 0;
  const band = bandOf(rows, wrongAt);
  const people = PEOPLE[who] ?? who;
  if (!band) return [];
  if (band.best > NO_GOOD)
    return [
      `No height of the ladder counts ${people} well: at best ${wrongWords(band.best)}, at ${metres(rows[band.at]!.height_m)}.`,
    ];
  const worst = Math.max(...rows.slice(band.from, band.to + 1).map(wrongAt));
  const upTo = worst === 0 ? 'none wrong' : `at most ${wrongWords(worst)}`;
  const below = troubleWords(rows.slice(0, band.from), who);
  const above = troubleWords(rows.slice(band.to + 1), who);
  return [
    `${capital(people)} are counted best ${bandWords(rows, band)}, ${upTo}` +
      `${below ? `; below, ${below}` : ''}${above ? `; above, ${above}` : ''}.`,
  ];
}

/** What goes wrong most over some rungs, by what the rungs show. */
function troubleWords(rows: readonly LadderRow[], who: string): string {
  const cells = rows.flatMap((row) => cellOf(row, who) ?? []);
  const worst = cells.toSorted((a, b) => b.wrong_per_100 - a.wrong_per_100)[0];
  if (!worst || worst.wrong_per_100 === 0) return '';
  const breaks = cells.map((cell) => cell.breaks_per_crossing);
  const most = Math.max(...breaks);
  const least = Math.min(...breaks);
  const causes: string[] = [];
  if (most > 1.1) causes.push(`legs or arms are seen one by one (up to ${decimal2(most)} breaks a crossing)`);
  if (least < 0.9) causes.push(`some pass without a break (down to ${decimal2(least)} a crossing)`);
  const kinds: string[] = [];
  const missed = Math.max(...cells.map((cell) => cell.missed_per_100));
  const wrongly = Math.max(...cells.map(falseOf));
  if (missed > 0) kinds.push(`up to ${perHundred(missed)} in 100 are missed`);
  if (wrongly > 0) kinds.push(`up to ${perHundred(wrongly)} in 100 are counted falsely`);
  return [joined(causes), joined(kinds)].filter((text) => text !== '').join(': ');
}

interface Band {
  readonly best: number;
  /** Indices among rows in order of height: the best rung, and the rungs around it that are as good. */
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

/** The longest run of rungs as good as the best, or nearly. */
function bandOf(rows: readonly LadderRow[], wrong: (row: LadderRow) => number): Band | null {
  if (rows.length === 0) return null;
  const wrongs = rows.map(wrong);
  const best = Math.min(...wrongs);
  let found: Band | null = null;
  for (let from = 0; from < rows.length; from++) {
    let to = from;
    while (to < rows.length && wrongs[to]! <= best + AS_GOOD) to++;
    if (to > from && (found === null || to - from > found.to - found.from + 1)) {
      const at = wrongs.indexOf(Math.min(...wrongs.slice(from, to)), from);
      found = { best, at, from, to: to - 1 };
    }
  }
  return found;
}

function bandWords(rows: readonly LadderRow[], { from, to }: Band): string {
  const [low, high] = [rows[from]!.height_m, rows[to]!.height_m];
  return from === to ? `at ${metres(low)}` : `between ${metres(low)} and ${metres(high)}`;
}

function eachWords(row: LadderRow, names: readonly string[]): string {
  return joined(
    names.map((who, i) => {
      const cell = cellOf(row, who);
      const wrong = cell?.wrong_per_100 ?? 0;
      return `${PEOPLE[who] ?? who} ${i === 0 ? wrongWords(wrong) : perHundred(wrong)}`;
    }),
  );
}

function wrongWords(per100: number): string {
  return `${perHundred(per100)} wrong per 100`;
}

function cellOf(row: LadderRow, who: string): LadderCell | undefined {
  return row.cells.find((cell) => cell.who === who);
}

/** Extra, reversed and invented. */
function falseOf(cell: LadderCell): number {
  return cell.wrong_per_100 - cell.missed_per_100;
}

/** The worse of the kinds of people; of all walkers where none is a person. */
function worstOf(row: LadderRow): number {
  const people = row.cells.filter((cell) => cell.who in PEOPLE);
  return Math.max(...(people.length > 0 ? people : row.cells).map((cell) => cell.wrong_per_100));
}

function bar(per100: number, paint: Paint): string {
  // Something wrong is never drawn as nothing.
  const filled = per100 > 0 ? Math.max(1, Math.min(BAR, Math.round((per100 / 100) * BAR))) : 0;
  const text = '█'.repeat(filled) + '·'.repeat(BAR - filled);
  const number = perHundred(per100).padStart(5);
  return `${per100 > 5 ? paint.red(text) : per100 > 1 ? paint.yellow(text) : paint.green(text)} ${number}`;
}

function perHundred(x: number): string {
  return rounded(x, 1);
}

function decimal2(x: number): string {
  return x.toFixed(2);
}

/** What a walk test has found, as a terminal shows it. */
import { bare, capital, count, joined } from '../report/words.js';
import { kindOfWalk } from '../report/walk-words.js';
import type { WhoWords } from '../report/who-words.js';
import type { KindVerdict, Outcome, TestVerdict } from '../score/walk-test/judge.js';
import type { PredictedKind } from '../simulate/walk-kinds.js';
import type { Paint } from './io.js';
import { columns, folded } from './lines.js';
import { findsWords, per100, rangeWords } from './walktest-plan-words.js';

type Verdict = KindVerdict<PredictedKind>;

const MARKS: Readonly<Record<Outcome, string>> = { agrees: '✓', disagrees: '✗', undecided: '?' };

/**
 * @param wrongs what went wrong in the walks of each kind
 * @param notes sentences about how tallies and walks were put together
 */
export function verdictText(
  { kinds, outcome }: TestVerdict<PredictedKind>,
  error: number,
  wrongs: readonly string[],
  notes: readonly string[],
  door: string,
  logic: string,
  who: WhoWords,
  paint: Paint,
): string {
  const doing = ({ planned: { kind } }: Verdict) => bare(kindOfWalk(who, kind));
  const [done, all] = [
    kinds.reduce((sum, { walks }) => sum + walks, 0),
    kinds.reduce((sum, { walks, more }) => sum + walks + more, 0),
  ];
  const head = ['', 'wrong', 'of 100', 'predicted', 'p', ''].map((word) => paint.bold(word));
  const rows = kinds.map((one) => [
    capital(doing(one)),
    `${count(one.wrong)} of ${count(one.walks)}`,
    one.walks === 0 ? '–' : `${per100(one.interval.low)} to ${per100(one.interval.high)}`,
    rangeWords(one.planned.prediction),
    pWords(one.p),
    `${MARKS[one.outcome]} ${one.outcome}`,
  ]);
  return [
    paint.bold(paint.cyan(`Walk test of door ${door}, logic ${logic}: ${outcomeWords(outcome)}`)) + '\n',
    columns([head, ...rows], ['left', 'right', 'right', 'right', 'right', 'left']),
    folded(
      `Exact 95\u00a0% intervals. p: how often a door as predicted gives walks at least as far off; ${pWords(error)} or less disagrees${done < all ? ', before all walks are done a fiftieth of that' : ''}.`,
    ),
    ...againstText(kinds, wrongs, doing),
    ...agreeText(kinds, doing),
    ...notes.map((note) => folded(note)),
    folded(nextWords(kinds, doing)),
  ].join('\n');
}

function outcomeWords(outcome: Outcome): string {
  if (outcome === 'agrees') return 'the door agrees with the prediction';
  return outcome === 'disagrees' ? 'the door disagrees with the prediction' : 'undecided';
}

function againstText(kinds: readonly Verdict[], wrongs: readonly string[], doing: (one: Verdict) => string): string[] {
  return kinds
    .flatMap((one, i) => (one.outcome === 'disagrees' ? [{ one, wrong: wrongs[i] ?? '' }] : []))
    .map(({ one, wrong }) => {
      const { low, high } = one.planned.prediction;
      const range = `${per100(low)} to ${per100(high)} of 100`;
      return folded(
        `${capital(doing(one))}: ${one.side ?? ''} are wrong than the ${range} that are predicted${wrong === '' ? '' : `: ${wrong}`}.`,
      );
    });
}

/** What an agreement is worth. */
function agreeText(kinds: readonly Verdict[], doing: (one: Verdict) => string): string[] {
  const agree = kinds.filter(({ outcome }) => outcome === 'agrees');
  if (agree.length === 0) return [];
  const found = agree.map((one) => `${doing(one)} with ${findsWords(one.planned)}`);
  return [
    folded(
      `Agreeing means that nothing speaks against the prediction, in walks that four times in five would have found out, of 100: ${found.join('; ')}.`,
    ),
  ];
}

function nextWords(kinds: readonly Verdict[], doing: (one: Verdict) => string): string {
  const open = kinds.filter(({ outcome }) => outcome === 'undecided');
  const against = kinds.filter(({ outcome }) => outcome === 'disagrees');
  const words: string[] = [];
  if (against.length > 0)
    words.push(
      `Next: measure heights, spacing and which beam is met first, compare them with the scenario, and see that the controller runs this logic. Then run again what you really built, or walk ${joined(against.map(doing))} once more on a new sheet.`,
    );
  if (open.length > 0)
    words.push(`To decide the rest, walk ${joined(open.map((one) => `${count(one.more)} more ${doing(one)}`))}.`);
  if (words.length === 0) words.push('Nothing more to walk.');
  return words.join(' ');
}

function pWords(p: number): string {
  return p < 0.0001 ? '< 0.0001' : String(Number(p.toPrecision(2)));
}

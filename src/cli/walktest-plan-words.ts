/** The plan of a walk test as a terminal shows it: how many walks of which kind, and what they can find out. */
import { bare, capital, count, decimal, plural } from '../report/words.js';
import { kindOfWalk } from '../report/walk-words.js';
import type { WhoWords } from '../report/who-words.js';
import type { PlannedKind, WalkPlan } from '../score/walk-test/plan.js';
import { MOST_SOUGHT } from '../score/walk-test/plan.js';
import type { PredictedKind, PredictedKinds } from '../simulate/walk-kinds.js';
import type { Paint } from './io.js';
import { columns, folded } from './lines.js';

/** A walk with reading the counter twice and writing it down. Common practice, no source. */
const WALK_S = 20;

export function planText(
  plan: WalkPlan<PredictedKind>,
  left_out: PredictedKinds['left_out'],
  door: string,
  logic: string,
  who: WhoWords,
  paint: Paint,
): string {
  const total = plan.kinds.reduce((sum, { walks }) => sum + walks, 0);
  const head = ['', 'predicted wrong', 'walks', 'would find out', 'doubled needs'].map((word) => paint.bold(word));
  const rows = plan.kinds.map((planned) => [
    bare(capital(kindOfWalk(who, planned.kind))),
    rangeWords(planned.prediction),
    count(planned.walks),
    findsWords(planned),
    planned.needed === null ? `over ${count(MOST_SOUGHT)}` : count(planned.needed),
  ]);
  return [
    paint.bold(
      paint.cyan(`Walk test of door ${door}, logic ${logic}: ${plural(total, 'walk')}, about ${timeWords(total)}`),
    ) + '\n',
    columns([head, ...rows], ['left', 'right', 'right', 'left', 'right']),
    folded(
      'Of 100 walks, with 95\u00a0% intervals: the same design, each walk alone, as you will walk. The report counts every wrong tally, with others about; so its rates differ.',
    ),
    folded(
      'What a row would find out, it finds out four times in five. A door that is as predicted is called different in at most one test in twenty, all kinds together. The last column: walks that would find out twice as many of the rarer ones, wrong or right. Where it is more than is walked, the walks show only what is grossly different.',
    ),
    ...plan.kinds
      .filter(({ kind }) => kind.rests_on === 0)
      .map(({ kind }) =>
        folded(
          `${capital(bare(kindOfWalk(who, kind)))}: nobody is simulated alone with an animal at heel; the run bounds it, widely.`,
        ),
      ),
    ...companyText(plan, who),
    ...leftOutText(left_out, who),
  ].join('\n');
}

/** Kinds that go wrong in the run for reasons that walks alone don't have. */
function companyText({ kinds }: WalkPlan<PredictedKind>, who: WhoWords): string[] {
  const worse = kinds.filter(({ kind: { run }, prediction }) => {
    // A wrong walk may make two wrong counts.
    return (run.wrong_per_100_visits.low ?? 0) / 100 > 2 * prediction.high;
  });
  if (worse.length === 0) return [];
  const words = worse.map(({ kind: { run } }) => {
    return `${bare(kindOfWalk(who, run))} (${per100((run.wrong_per_100_visits.value ?? 0) / 100)} wrong counts in 100 visits of the run)`;
  });
  return [folded(`Mostly wrong because others are about, which walks alone can't confirm: ${words.join('; ')}.`)];
}

function leftOutText(left_out: PredictedKinds['left_out'], who: WhoWords): string[] {
  if (left_out.length === 0) return [];
  const words = left_out.slice(0, 5).map(({ row, share, can }) => {
    const why = can ? '' : '; nobody can be asked to';
    return `${bare(kindOfWalk(who, row))} (${atLeastWords(100 * share)}\u00a0% of the wrong counts${why})`;
  });
  const more = left_out.length > 5 ? `; and ${count(left_out.length - 5)} more` : '';
  return [folded(`Not walked: ${words.join('; ')}${more}.`)];
}

/** '12 or more wrong', of 100: the share that is found out, of what the claim is of. */
export function findsWords({ claim, finds }: PlannedKind<PredictedKind>): string {
  if (finds >= 1) return 'nothing: too few walks';
  // Rounded to what is found out more surely.
  if (claim.of === 'wrong') return `${finds > 0.1 ? Math.ceil(100 * finds - 1e-9) : per100(finds)} or more wrong`;
  return `${finds > 0.1 ? Math.floor(100 * (1 - finds) + 1e-9) : per100(1 - finds)} or fewer wrong`;
}

/** '5.0 (4.3 to 5.7)', of 100. */
export function rangeWords({ value, low, high }: { value: number; low: number; high: number }): string {
  return `${per100(value)} (${per100(low)} to ${per100(high)})`;
}

/** '0.13', '4.3', '98.7', '100': three digits at most. */
export function per100(share: number): string {
  const x = 100 * share;
  const decimals = x < 1 || (x > 99 && x < 100) ? 2 : 1;
  if (x > 0 && x < 0.005) return '< 0.01';
  return x < 100 && x > 99.995 ? '> 99.99' : decimal(x, decimals);
}

function atLeastWords(x: number): string {
  return x < 1 ? 'under 1' : decimal(x, 0);
}

function timeWords(walks: number): string {
  const minutes = 5 * Math.max(1, Math.round((walks * WALK_S) / 300));
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  return [hours > 0 ? `${hours} h` : '', rest > 0 ? `${rest} min` : ''].filter((one) => one !== '').join(' ');
}

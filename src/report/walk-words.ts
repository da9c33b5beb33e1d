/** A walk of a walk test in plain words, for who is to walk it. */
import type { WalkRow } from '../score/walk-test/rows.js';
import { type WhoWords, doingWords } from './who-words.js';
import { count } from './words.js';

const ONE: Readonly<Record<string, string>> = {
  adult: 'an adult',
  child: 'a child',
  'adult-with-infant': 'an adult with an infant on the arm',
  'adult-with-suitcase': 'an adult with a suitcase',
  'adult-with-laundry-basket': 'an adult with a laundry basket',
  'adult-with-pram': 'an adult with a pram',
  'adult-with-rollator': 'somebody with a rollator',
  'wheelchair-pushed': 'a wheelchair that is pushed',
  'wheelchair-user': 'a wheelchair user',
};

/** A kind of walk: 'adults turning back', 'somebody with “bruno” at heel'. */
export function kindOfWalk(
  who: WhoWords,
  { who: walker, kind }: { readonly who: string; readonly kind: string },
): string {
  return kind === 'at-heel' ? `somebody with ${who(walker)} at heel` : doingWords(who, walker, kind);
}

/** Who walks: 'an adult', or a name. */
export const walkerWords = (who: WhoWords, { who: walker, kind }: Pick<WalkRow, 'who' | 'kind'>): string =>
  kind === 'at-heel' ? `somebody with ${who(walker)}` : (ONE[walker] ?? who(walker));

/** What they do: 'walk in, stop 12 cm past the middle, stand 2 s, turn round, go back'. */
export function walkWords({ kind, stop_m, stay_s, back }: WalkRow): string {
  switch (kind) {
    case 'through':
      return 'walk through';
    case 'abreast':
      return 'walk through beside another, one a little ahead if the door is narrow';
    case 'close-behind':
      return 'walk through, another right behind';
    case 'against':
      return 'walk through while another comes towards you; one gives way';
    case 'reach':
      return 'stay on your side, reach through with an arm, take it back';
    case 'at-heel':
      return 'walk through with the animal at heel';
    default: {
      const stay = (stay_s ?? 0) < 1 ? 'wait a moment' : `stand ${count(stay_s ?? 0)}\u00a0s`;
      return `walk in, stop ${placeWords(stop_m ?? 0)}, ${stay}, ${back ? 'turn round, go back' : 'walk on through'}`;
    }
  }
}

function placeWords(stop_m: number): string {
  const cm = Math.round(100 * stop_m);
  if (cm === 0) return 'in the middle';
  return `${count(Math.abs(cm))}\u00a0cm ${cm < 0 ? 'before' : 'past'} the middle`;
}

/** What a right counter adds: '+1 forward', '+1 forward, +1 backward', 'nothing'. */
export function addsWords({ expected }: Pick<WalkRow, 'expected'>): string {
  const parts = (['forward', 'backward'] as const).flatMap((way) =>
    expected[way] > 0 ? [`+${expected[way]} ${way}`] : [],
  );
  return parts.length > 0 ? parts.join(', ') : 'nothing';
}

/** A picture in words: who came, what the logic made of it, and why. */
import type { Picture, PicturedBody } from '../../score/pictures.js';
import { whySentence } from '../why-words.js';
import type { WhoWords } from '../who-words.js';
import { capital, joined, metres, named, oneWords, plural } from '../words.js';

/** What one body does, of one. */
const DOES: Readonly<Record<string, string>> = {
  through: 'goes through',
  abreast: 'goes through, one of two together',
  'close-behind': 'goes through, close to another',
  against: 'meets somebody from the other side',
  'turn-back': 'turns back',
  linger: 'lingers and goes back',
  reach: 'reaches through',
  'at-heel': 'goes through with a pet at heel',
  swing: 'swings',
};

/** 'Child (1.12 m) goes through, forward'. */
export function bodyWords(
  { who, stature_m, kind, direction, crosses }: PicturedBody,
  say: WhoWords = oneWords,
): string {
  const crossed = crosses || kind === 'turn-back' || kind === 'linger' || kind === 'reach' || kind === 'swing';
  const usual = kind === 'linger' && crosses ? 'lingers and goes on' : (DOES[kind] ?? named(kind));
  const does = crossed ? usual : 'comes and goes back';
  return `${say(who)} (${metres(stature_m)}) ${does}, ${crosses ? '' : 'coming '}${direction}`;
}

/** 'counted nobody, so 1 person was missed'. */
export function saidWords({ tallies, missed, reversed, extra, invented }: Picture): string {
  const said = (['forward', 'backward'] as const).flatMap((way) => {
    const n = tallies.filter(({ direction }) => direction === way).length;
    return n > 0 ? [`${n} ${way}`] : [];
  });
  const wrong = [
    missed > 0 && `${missed} missed`,
    reversed > 0 && `${reversed} counted the wrong way round`,
    extra > 0 && `${extra} counted too many`,
    invented > 0 && `${invented} counted of somebody who did not go through`,
  ].filter((one) => one !== false);
  const what = wrong.length > 0 ? `: ${joined(wrong)}` : '';
  return `counted ${said.length > 0 ? joined(said) : 'nobody'}${what}`;
}

/** The whole caption, in sentences. @param say what a walker is called, of one */
export function captionOf(picture: Picture, say: WhoWords = oneWords): string {
  const [subject, ...others] = picture.bodies;
  const who = subject ? `${capital(bodyWords(subject, say))}.` : 'Nobody comes.';
  const besides =
    others.length === 0
      ? ''
      : others.length > 3
        ? ` Besides ${plural(others.length, 'other')}.`
        : ` Besides: ${joined(others.map((other) => bodyWords(other, say)))}.`;
  const why = picture.why ? ` ${whySentence(picture.why)}` : '';
  return `${who}${besides} The logic ${named(picture.logic)} ${saidWords(picture)}.${why}`;
}

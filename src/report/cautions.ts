/** What to mind before drilling, wiring and counting people. Printed in every report. */
import { HEARS_TO_KHZ, animalsWarning, soundsOf } from './animals.js';
import type { Design } from '../scenario/schema.js';
import { kindWords, kindsUsed } from './sensor-words.js';
import { decimal, joined } from './words.js';

export interface Caution {
  readonly title: string;
  readonly text: string;
}

const LIGHT = 'Light and eyes';
const SOUND = 'Sound and animals';

export const CAUTIONS: readonly Caution[] = [
  {
    title: 'Before you drill',
    text: 'Find cables and pipes first. Never drill a fire door, its frame or any other rated assembly: a hole can void its rating. Local building codes and licensed trades decide what may be done where; this report does not.',
  },
  {
    title: 'Electricity',
    text: 'Everything here is low voltage. Mains wiring belongs to a licensed electrician.',
  },
  {
    title: LIGHT,
    text: 'Use optical emitters whose maker rates them eye-safe (IEC 62471), and never stare into one, least of all at a child’s height.',
  },
  {
    title: SOUND,
    text: 'Ultrasonic sensors work at about 40 kHz. People do not hear that; dogs and cats do.',
  },
  {
    title: 'People are not to be counted in secret',
    text: 'In a shared home or a workplace, a record of who passed when is personal data. Tell the people concerned, ask them, and keep little. A log that can be replayed shows when nobody is home.',
  },
  {
    title: 'Never for safety',
    text: 'Do not use such a count for evacuation, access control, capacity limits or anything a life may hang on. A count that drifts is not a roll-call.',
  },
];

/** All cautions, those about light and sound with what the sensors in use add to them; what animals of the household hear comes first. */
export function cautionsFor(design: Design): Caution[] {
  const warning = animalsWarning(design);
  const all = CAUTIONS.map(({ title, text }) => {
    const more = title === LIGHT ? lightOf(design) : title === SOUND ? soundOf(design) : null;
    return { title, text: more === null ? text : `${text} ${more}` };
  });
  if (warning === null) return all;
  const { title, text } = all.find((caution) => caution.title === SOUND)!;
  return [{ title, text: `${warning} ${text}` }, ...all.filter((caution) => caution.title !== SOUND)];
}

function lightOf(design: Design): string | null {
  const optical = kindsUsed(design).filter((kind) => kind !== 'ultrasonic-ranger');
  if (optical.length === 0) return null;
  return `That goes for the ${joined(optical.map((kind) => `${kindWords(kind)}s`))} of this design.`;
}

function soundOf(design: Design): string | null {
  const sounds = soundsOf(design);
  if (sounds === null) return null;
  const { tones_khz: tones, loudest_db } = sounds;
  const lowest = tones[0] ?? 0;
  const heard =
    lowest <= HEARS_TO_KHZ.dog
      ? 'Watch your animals, and switch the rangers off if they avoid the door.'
      : lowest <= HEARS_TO_KHZ.cat
        ? 'So cats may hear them: watch yours, and switch the rangers off if it avoids the door.'
        : 'So neither is likely to hear them.';
  return `The rangers of this design send ${joined(tones.map((khz) => `${decimal(khz)}\u00a0kHz`))} all day, with up to ${decimal(loudest_db)}\u00a0dB at a metre. Tones of 60\u00a0dB are heard up to ${HEARS_TO_KHZ.dog}\u00a0kHz by dogs (H. E. Heffner, Behav. Neurosci. 97, 1983) and up to about ${HEARS_TO_KHZ.cat}\u00a0kHz by cats (R. S. and H. E. Heffner, Hear. Res. 19, 1985, second-hand). ${heard}`;
}

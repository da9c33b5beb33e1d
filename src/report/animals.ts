/** Which animals of a household hear which sensors of a design. */
import { BUILT_IN_WALKERS } from '../agents/schema.js';
import type { Design } from '../scenario/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import { decimal, joined, named } from './words.js';

/**
 * Dogs: H. E. Heffner, Behav. Neurosci. 97:310–318, 1983, mean threshold at 40 kHz 41 dB and upper limit 44 kHz at 60 dB
 * (published). Cats: R. S. Heffner and H. E. Heffner, Hear. Res. 19:85–88, 1985, upper limit 79 kHz (second-hand).
 */
export const HEARS_TO_KHZ = { dog: 44, cat: 79 } as const;

/** Tones of all ultrasonic rangers in use, kHz, ascending, and the loudest of them, dB at a metre; null without one. */
export function soundsOf(design: Design): { readonly tones_khz: number[]; readonly loudest_db: number } | null {
  const names = new Set(design.doors.flatMap((door) => door.beams.map((beam) => beam.sensor)));
  const rangers = [...names].map((name) => sensorNamed(design, name)).filter((s) => s.kind === 'ultrasonic-ranger');
  if (rangers.length === 0) return null;
  const tones = new Set(rangers.map((s) => s.frequency_khz));
  return {
    tones_khz: [...tones].sort((a, b) => a - b),
    loudest_db: Math.max(...rangers.map((s) => s.source_level_db)),
  };
}

/** Names of the household's animals that hear some ranger's tone. */
function animalsThatHear(design: Design): string[] {
  const sounds = soundsOf(design);
  const [lowest] = sounds?.tones_khz ?? [];
  if (lowest === undefined) return [];
  const walkers = { ...BUILT_IN_WALKERS, ...design.walkers };
  return (design.household?.pets ?? [])
    .filter(({ animal }) => {
      const kind = walkers[animal]?.kind;
      return (kind === 'dog' || kind === 'cat') && lowest <= HEARS_TO_KHZ[kind];
    })
    .map(({ name }) => name);
}

/** What has to be said before anything is bought; null where no animal of the household hears a ranger. */
export function animalsWarning(design: Design): string | null {
  const names = animalsThatHear(design);
  const sounds = soundsOf(design);
  if (names.length === 0 || sounds === null) return null;
  return `Mind the animals: ${joined(names.map(named))} can hear the ultrasonic rangers, which send ${joined(sounds.tones_khz.map((khz) => `${decimal(khz)}\u00a0kHz`))} all day. Light barriers make no sound.`;
}

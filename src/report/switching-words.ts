/** How a ranger's readings become broken and clear, in words. */
import type { SwitchingSettings } from '../sensors/switching/schema.js';
import { decimal, joined, metres, plural } from './words.js';

const NO_ECHO: Readonly<Record<SwitchingSettings['no_echo'], string>> = {
  clear: 'A reading without echo counts as clear',
  broken: 'A reading without echo counts as broken',
  keep: 'A reading without echo changes nothing',
};

export function switchingWords(s: SwitchingSettings): string {
  const learnt = s.nearer_than_m === undefined;
  const at = learnt
    ? `more than ${metres(s.margin_m)} nearer than the learnt background`
    : `nearer than ${metres(s.nearer_than_m ?? 0)}`;
  const again = s.hysteresis_m > 0 ? `clear again from ${metres(s.hysteresis_m)} beyond that` : 'otherwise clear';
  const before = [
    ...(s.median_of > 1 ? [`the median of ${s.median_of} readings is looked at`] : []),
    ...(s.minimum_samples > 1 ? [`${plural(s.minimum_samples, 'reading')} in a row must agree before it breaks`] : []),
    ...(s.off_delay_ms > 0 ? [`it clears only after ${decimal(s.off_delay_ms)}\u00a0ms of clear readings`] : []),
  ];
  const background = learnt
    ? ` The background is the median of the first ${plural(s.learn_readings, 'reading')}${
        s.follow_um > 0 ? `, and follows by at most ${decimal(s.follow_um)}\u00a0µm a reading while clear` : ''
      }.`
    : '';
  return `Broken while a reading is ${at}, ${again}${before.length > 0 ? `; ${joined(before)}` : ''}.${background} ${NO_ECHO[s.no_echo]}.`;
}

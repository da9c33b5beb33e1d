/** What a run leaves out, so that nobody reads more into it than there is. */
export const NOT_MODELLED: readonly string[] = [
  'Loads and vehicles other than the built-in ones (rucksack, laundry basket, tray, suitcase, trolley, pram, rollator, wheelchair, robot vacuum), and somebody who puts one down in a doorway.',
  'A door leaf or a curtain at rest: only their swings break beams, and nobody is touched by them.',
  'Running, trotting, crawling, jumping and dancing: everyone walks, rolls, stops, turns, lingers or reaches through.',
  'Leaning on a jamb and squeezing past: who lingers stands free, and others wait outside until the way is free.',
  'Sunlight on light barriers; dirt, fog, vibration and a frame that goes out of true; of a sensor’s faults only those the scenario states.',
  'Air and daylight that change: they stay as set, without draughts, heaters under a beam or other sources of ultrasound.',
  'Clothing beyond a layer on the body: no wide skirts, coats or scarves that trail through a beam.',
  'Holidays, illness and any day unlike the others, but for the weekday: a household lives by its habits, and its rooms are bare of furniture to walk round.',
  'A presence sensor’s field of view: it misses people by chance, not by where they sit.',
  'Broken cables, and a controller that hangs until somebody comes.',
  'People who know about the beams and play with them.',
  'Other sensors in a doorway than light barriers and rangers along one axis, and rooms joined by doors that are not in the scenario.',
];

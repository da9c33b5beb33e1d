/** Which facts of a door deserve a word. Limits are judgement, no source: one walker in a hundred, one adult in two. */
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { BeamFacts, DoorFacts, FactCaution, ResponseFacts } from './fact-types.js';
import { sensorNamed } from '../scenario/sensor-named.js';
import { rangerCautions } from './ranger-cautions.js';

/** Share of walkers from which on something is worth a word. */
const WORTH_A_WORD = 0.01;
/** Breaks per crossing from which on a beam sees legs or arms singly. */
const SEVERAL_BREAKS = 1.1;
const MOST = 0.5;

export function cautionsOf(facts: Omit<DoorFacts, 'cautions'>, design: Design, door: DesignDoor): FactCaution[] {
  const cautions: FactCaution[] = [];
  for (const beams of alikeBarriers(facts.beams)) {
    const { height_m, broken, breaks_per_crossing, response } = beams[0] as BarrierFacts;
    const names = beams.map((one) => one.beam);
    if (1 - broken.value > WORTH_A_WORD)
      cautions.push({ code: 'too_high', beams: names, height_m, unbroken: { value: 1 - broken.value, n: broken.n } });
    // Per crossing that breaks it at all: people who pass below must not hide legs of others.
    const breaks = broken.value > 0 ? breaks_per_crossing / broken.value : 0;
    if (breaks > SEVERAL_BREAKS) cautions.push({ code: 'legs', beams: names, height_m, breaks });
    if (response.unseen.value > WORTH_A_WORD)
      cautions.push({
        code: 'response_slow',
        beams: names,
        response_ms: response.response_ms,
        unseen: response.unseen,
      });
  }
  for (const { first, second, spacing_m, never_together, poll } of facts.spacings) {
    const diameter_m = Math.max(...[first, second].map((name) => diameterOf(design, door, name)));
    if (spacing_m < diameter_m) cautions.push({ code: 'too_close', first, second, spacing_m, diameter_m });
    if (never_together.value > WORTH_A_WORD)
      cautions.push({ code: 'too_far', first, second, spacing_m, apart: never_together });
    if (poll && poll.unsure.value > 0) cautions.push({ code: 'poll_slow', first, second, poll });
  }
  cautions.push(...rangerCautions(facts));
  for (const pair of facts.interference) cautions.push({ code: 'interference', ...pair });
  const { width_m, abreast, turned } = facts.opening;
  if (turned.value > MOST) cautions.push({ code: 'narrow', width_m, turned });
  const twoAbreast = door.traffic.mix.some(({ kind, share }) => kind === 'abreast' && share > 0);
  if (twoAbreast && abreast.value < MOST) cautions.push({ code: 'not_abreast', width_m, abreast });
  if (facts.zone.cut.value > 0) cautions.push({ code: 'zone_cut', zone_m: facts.zone.zone_m, cut: facts.zone.cut });
  return cautions;
}

type BarrierFacts = BeamFacts & { readonly response: ResponseFacts };

/** Barriers at one height with one response time, together: what holds for one holds for all. */
export function alikeBarriers(beams: readonly BeamFacts[]): BarrierFacts[][] {
  const groups: BarrierFacts[][] = [];
  for (const beam of beams.filter((one): one is BarrierFacts => one.response !== null)) {
    const group = groups.find(
      ([one]) => one?.height_m === beam.height_m && one.response.response_ms === beam.response.response_ms,
    );
    if (group) group.push(beam);
    else groups.push([beam]);
  }
  return groups;
}

function diameterOf(design: Design, door: DesignDoor, name: string): number {
  const beam = door.beams.find((one) => one.name === name);
  const sensor = beam && sensorNamed(design, beam.sensor);
  return sensor?.kind === 'light-barrier' ? sensor.beam_diameter_m : 0;
}

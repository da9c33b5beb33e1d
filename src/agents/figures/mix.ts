/** Who comes to a doorway, and how people fit through it: judgement, but for the shoulder ratio. */
import type { Figure } from '../../engine/figure.js';
import { BUILT_IN_WALKERS, DEFAULT_MIX, trafficSchema } from '../schema.js';
import { NO_SOURCE } from './sources.js';

export const MIX_SHARES: readonly Figure<number>[] = DEFAULT_MIX.map(({ who, kind, share }) => ({
  id: `mix.${who}.${kind}`.replaceAll('-', '_'),
  value: share,
  unit: 'share of parties',
  used_in: 'the mix of parties where a scenario states none; reports show half and double of each',
  citation: `${NO_SOURCE}: no survey of household doorways stands behind it`,
  status: 'assumption',
}));

type Ages = { readonly youngest: number; readonly oldest: number; readonly women_share: number };
export const WALKERS: readonly Figure<Ages>[] = Object.entries(BUILT_IN_WALKERS).flatMap(([who, walker]) =>
  walker.kind === 'people'
    ? [
        {
          id: `walkers.${who}`.replaceAll('-', '_'),
          value: { youngest: walker.ages_y[0], oldest: walker.ages_y[1], women_share: walker.women_share },
          unit: 'years; share',
          used_in: 'who a walker of this name is: ages drawn evenly between, women or girls by share',
          citation: NO_SOURCE,
          status: 'assumption',
        } as const,
      ]
    : [],
);

/** Of the built-in walkers that roll. */
export const ROLLING: readonly Figure[] = Object.entries(BUILT_IN_WALKERS).flatMap(([who, walker]): Figure[] => {
  const id = `walkers.${who}`.replaceAll('-', '_');
  if (walker.kind === 'wheelchair-user')
    return [
      {
        id,
        value: {
          youngest: walker.ages_y[0],
          oldest: walker.ages_y[1],
          women_share: walker.women_share,
          slowest: walker.speed_mps,
          fastest: walker.speed_to_mps,
        },
        unit: 'years; share; m/s',
        used_in: 'who drives a wheelchair of their own, and how fast: ages and speeds drawn evenly between',
        citation: NO_SOURCE,
        status: 'assumption',
      },
    ];
  if (walker.kind !== 'robot-vacuum') return [];
  const { diameter_m: diameter, height_m: height, speed_mps: speed } = walker;
  return [
    {
      id,
      value: { diameter, height, speed },
      unit: 'm; m/s',
      used_in: 'a robot vacuum, where a scenario states none of its own',
      citation: 'common practice, no source: the size and pace such a thing usually has',
      status: 'common practice',
    },
  ];
});

export const STAY: Figure<number> = {
  id: 'traffic.stay_mean',
  value: trafficSchema.parse({ arrivals_per_hour: 1 }).stay_mean_min,
  unit: 'min',
  used_in: 'default of stay_mean_min: how long parties stay before their way back, exponentially distributed',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const SHOULDERS_TURNED: Figure<number> = {
  id: 'passage.shoulders.most_turned',
  value: 0.3,
  unit: 'cosine of the angle',
  used_in: 'how far shoulders are turned at the most to go through a narrow opening',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const SHOULDER_RATIO: Figure<number> = {
  id: 'passage.shoulders.ratio',
  value: 1.3,
  unit: 'opening over shoulder breadth',
  used_in: 'in narrower openings the shoulders are turned, until the ratio is this again',
  citation:
    'W. H. Warren, S. Whang, J. Exp. Psychol. Hum. Percept. Perform. 13:371–383, 1987, as restated by A. L. Hackney et al., Q. J. Exp. Psychol. 66:1104–1112, 2013; how far they are turned is an assumption',
  status: 'second-hand',
};

export const ABREAST_ROOM: Figure<number> = {
  id: 'passage.abreast.room',
  value: 0.1,
  unit: 'm',
  used_in: 'room beside two pairs of shoulders that must be left for two to walk abreast',
  citation: NO_SOURCE,
  status: 'assumption',
};

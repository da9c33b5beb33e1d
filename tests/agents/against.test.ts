/** Two who meet at a door owe each other nothing afterwards: each stays for a time of its own. */
import { expect, test } from 'vitest';
import type { CrowdPlan } from '../../src/agents/crowd-plan.js';
import { OUTSIDE } from '../../src/agents/outside.js';
import { Crowd } from '../../src/agents/crowd.js';
import type { Visit } from '../../src/agents/visit.js';
import { Stream } from '../../src/engine/stream.js';

const MINUTE_US = 60e6;
const STAY_MIN = 20;
const plan: CrowdPlan = {
  people_at_start: [100],
  doors: [
    {
      name: 'front',
      from: OUTSIDE,
      to: 0,
      opening: { width_m: 0.9, zone_m: 1 },
      traffic: {
        arrivals_per_hour: 2,
        forward_share: 1,
        one_way: false,
        stay_mean_min: STAY_MIN,
        home_pace: 0.7,
        mix: [{ who: 'adult', kind: 'against', share: 1 }],
      },
    },
  ],
  walkers: {},
  clock_us: 500 * 60 * MINUTE_US,
  starts_at_h: 0,
};

test('two who came against each other return apart: their stays differ as two exponential draws do', () => {
  const visits: Visit[] = [];
  new Crowd(plan, Stream.root('against')).run((visit) => visits.push(visit));
  const meetings = visits.filter(({ kind }) => kind === 'against').length / 2;
  expect(meetings).toBeGreaterThan(900);
  // Of the returns, which go through alone, how many begin within a minute of another one? Two stays differ by less
  // than t with probability 1 − exp(−t / mean); strangers come within a minute of one at their rate, 2 an hour.
  const alone = visits.filter(({ kind }) => kind === 'through').map(({ enter_us }) => enter_us);
  const close = alone.slice(1).filter((enter_us, i) => enter_us - alone[i]! < MINUTE_US).length;
  const partner = 1 - Math.exp(-1 / STAY_MIN);
  const stranger = 1 - Math.exp((-2 * 2) / 60);
  expect(close / meetings).toBeLessThan(2 * (partner + stranger));
});

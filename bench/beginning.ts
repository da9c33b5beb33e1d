/** What the first stages are given: a crowd's plan, its streams of chance, and who came, in a few words each. */
import type { Body } from '../src/agents/body.js';
import { Crowd } from '../src/agents/crowd.js';
import type { CrowdPlan } from '../src/agents/crowd-plan.js';
import type { Visit } from '../src/agents/visit.js';
import { drawBody, walkerNamed } from '../src/agents/walkers.js';
import { Stream } from '../src/engine/stream.js';
import type { Design } from '../src/scenario/schema.js';
import { crowdPlan } from '../src/simulate/plan.js';

type Coming = Pick<Visit, 'who' | 'body' | 'stature_m' | 'kind' | 'direction'>;

export interface Beginning {
  readonly plan: CrowdPlan;
  readonly stream: Stream;
  readonly bodyStream: Stream;
  readonly comings: readonly Coming[];
  /** The first coming of each body. */
  readonly firstComings: readonly Coming[];
  readonly someBodies: readonly Body[];
}

export function beginningOf(design: Design): Beginning {
  const plan = crowdPlan(design);
  const stream = Stream.root(String(design.seed)).child('replicate', '1').child('crowd');
  const bodyStream = stream.child('body');
  const comings: Coming[] = [];
  new Crowd(plan, stream).run(({ who, body, stature_m, kind, direction }) =>
    comings.push({ who, body, stature_m, kind, direction }),
  );
  const seen = new Set<number>();
  const firstComings = comings.filter(({ body }) => !seen.has(body) && seen.add(body));
  const someBodies = firstComings.slice(0, 50).map(({ who, body }) => bodyOf(plan, who, body, bodyStream));
  return { plan, stream, bodyStream, comings, firstComings, someBodies };
}

export function bodyOf(plan: CrowdPlan, who: string, number: number, stream: Stream): Body {
  const { opening, traffic } = plan.doors[0]!;
  return drawBody(who, walkerNamed(who, plan.walkers), number, opening, traffic.home_pace, stream.nth(number));
}

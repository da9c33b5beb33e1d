/** A study of two designs with its cells done: the texts of its folder, made once. */
import type { StudyPlan } from '../../src/study/plan/plan.js';
import { type StudyRequest, requestOf } from '../../src/study/request.js';
import { summarise } from '../../src/study/summary.js';
import { planned, runHere, studyOf } from '../study/studies.js';
import { small } from './material.js';

export interface SmallStudy {
  readonly plan: StudyPlan;
  readonly request: StudyRequest;
  readonly marker: string;
  /** Texts of the journal's entries. */
  readonly entries: readonly string[];
  /** As another machine gives them back. */
  readonly results: readonly string[];
  readonly summary: string;
}

let made: SmallStudy | undefined;
export function smallStudy(): SmallStudy {
  return (made ??= fresh());
}

function fresh(): SmallStudy {
  const rest = {
    factors: [{ key: 'doors.front.pair.height_m', values: [0.4, 1] }],
    replicates: 2,
  };
  const design = small();
  const plan = planned(design, rest);
  const { standing, journal } = runHere(plan);
  const request = requestOf(studyOf(rest), design, {}, {});
  return {
    plan,
    request,
    marker: JSON.stringify({ request, slice: null }),
    entries: journal.entries.map((entry) => JSON.stringify(entry)),
    results: [
      ...journal.entries.map(({ d: _d, r: _r, ...cell }) => JSON.stringify({ cell })),
      '{"failed":"a door fell shut"}',
      '{"lesson":{}}',
    ],
    summary: JSON.stringify(summarise(standing, journal), null, 2),
  };
}

/** Causes of wrong counts in words. */
import type { WhyMetrics } from '../score/metrics-schema.js';
import type { Removal, Structure, Why } from '../score/why-classes.js';
import { weekWords } from './causes.js';
import { ERRORS, type ErrorCounts } from '../score/errors.js';
import { count, formatEstimate, joined } from './words.js';

const THING: Readonly<Record<Removal | Structure, string>> = {
  noise: 'sensor noise',
  'other bodies': 'somebody else in the doorway',
  arms: 'arms',
  'lower legs': 'lower legs',
  load: 'what was carried or pushed',
  leaf: 'the leaf or the curtain',
  'scan gaps': 'the controller not looking',
  background: 'a wrongly learnt background',
  'beam saw nothing': 'a beam that never saw the body',
  'shallower than the spacing': 'a body shallower than the spacing',
  timeout: 'a timeout of the logic',
  'not at rest': 'a logic still busy with what was before',
  rule: "the logic's own rule",
};

/** 'arms'; 'arms or somebody else in the doorway, either'; 'arms and sensor noise together'. */
export function causeWords({ how, things }: Why): string {
  const words = things.map((thing) => THING[thing]);
  switch (how) {
    case 'only':
    case 'structure':
      return words[0] ?? '';
    case 'either':
      return `either of ${joined(words)}`;
    case 'pair':
      return `${joined(words)} together`;
    case 'unexplained':
      return 'not explained';
    case 'not reproduced':
      return 'not the same when simulated again';
  }
}

/** What a single case comes to, as a sentence for a caption. */
export function whySentence(why: Why): string {
  switch (why.how) {
    case 'only':
      return `Without ${causeWords(why)} it would have been right.`;
    case 'either':
      return `Without any one of ${joined(why.things.map((thing) => THING[thing]))} it would have been right.`;
    case 'pair':
      return `Only without both ${causeWords(why).replace(/ together$/, '')} it would have been right.`;
    case 'structure':
      return `The cause: ${causeWords(why)}.`;
    case 'unexplained':
      return 'Nothing that was taken away explains it.';
    case 'not reproduced':
      return 'Simulated again by itself it came out otherwise.';
  }
}

/** Causes that make up at least this share are named in the verdict. */
const WORTH_NAMING = 0.15;

/** The one or two main causes with their numbers a week; null where nothing was explained. */
export function mainCauses(why: WhyMetrics, hours: number): string | null {
  const named = why.causes
    .filter(({ share, how }) => (share.value ?? 0) >= WORTH_NAMING && how !== 'unexplained' && how !== 'not reproduced')
    .slice(0, 2);
  if (named.length === 0) return null;
  const each = named.map((cause) => `${causeWords(cause)}, ${formatEstimate(cause.per_week)}`);
  return `Main ${named.length === 1 ? 'cause' : 'causes'} of wrong visits ${weekWords(hours)}: ${each.join('; ')}.`;
}

/** 'invented 120, missed 3'; the most frequent first. */
export function errorWords(errors: ErrorCounts): string {
  const met = ERRORS.filter((name) => errors[name] > 0).sort((a, b) => errors[b] - errors[a]);
  return met.map((name) => `${name} ${count(errors[name])}`).join(', ');
}

/** A share in whole percent. */
export const roughly = (share: number): number => Math.round(share * 100) / 100;

/** Small made-up cases: which of the things taken away is called the cause, given what helps. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { REMOVALS, type Removal } from '../../../src/score/why-classes.js';
import { causeOf } from '../../../src/simulate/why/cause.js';

/** Right without any of these sets, each taken away whole. */
const rightWithout =
  (...sets: Removal[][]) =>
  (gone: ReadonlySet<Removal>): boolean =>
    sets.some((set) => set.every((one) => gone.has(one)));

describe('the cause', () => {
  test('is the one thing without which it is right', () => {
    expect(causeOf(REMOVALS, rightWithout(['arms']))).toEqual({ how: 'only', things: ['arms'] });
  });

  test('is either of several, if each alone would do', () => {
    const helps = rightWithout(['load'], ['noise']);
    expect(causeOf(REMOVALS, helps)).toEqual({ how: 'either', things: ['noise', 'load'] });
  });

  test('is a pair only where no single thing would do; the first pair in the order of the list', () => {
    const helps = rightWithout(['arms', 'leaf'], ['other bodies', 'scan gaps']);
    expect(causeOf(REMOVALS, helps)).toEqual({ how: 'pair', things: ['other bodies', 'scan gaps'] });
    const single = rightWithout(['arms', 'leaf'], ['load']);
    expect(causeOf(REMOVALS, single)).toEqual({ how: 'only', things: ['load'] });
  });

  test('is not found where three things are needed, or what helps is not there to be taken', () => {
    expect(causeOf(REMOVALS, rightWithout(['noise', 'arms', 'load']))).toBeNull();
    expect(causeOf(['noise', 'arms'], rightWithout(['leaf']))).toBeNull();
    expect(causeOf([], () => true)).toBeNull();
  });

  test('always helps, and is asked for with never more than two things gone', () => {
    const anything = fc.array(fc.uniqueArray(fc.constantFrom(...REMOVALS), { minLength: 1, maxLength: 3 }));
    fc.assert(
      fc.property(anything, (sets) => {
        const helps = rightWithout(...sets);
        const sizes: number[] = [];
        const cause = causeOf(REMOVALS, (gone) => {
          sizes.push(gone.size);
          return helps(gone);
        });
        expect(Math.max(...sizes)).toBeLessThanOrEqual(2);
        if (cause === null) expect(sets.every((set) => set.length > 2)).toBe(true);
        else if (cause.how === 'pair') expect(helps(new Set(cause.things as Removal[]))).toBe(true);
        else for (const thing of cause.things) expect(helps(new Set([thing as Removal]))).toBe(true);
      }),
      { seed: 11 },
    );
  });
});

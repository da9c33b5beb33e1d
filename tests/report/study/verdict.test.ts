// The verdict of a study against responses that are known, all invented.
import { describe, expect, test } from 'vitest';
import { studyVerdict } from '../../../src/report/study/verdict.js';
import { StudyView } from '../../../src/report/study/view.js';
import { factorWeights } from '../../../src/report/study/weights.js';
import { HEIGHT, SENSOR, SPACING, inventedStudy } from './invented-study.js';

const plain = (text: string): string => text.replace(/[\u2068\u2069]/g, '').replace(/\u00a0/g, ' ');
const told = (summary: Parameters<typeof viewOf>[0]): { headline: string; text: string } => {
  const { headline, paragraphs } = studyVerdict(viewOf(summary));
  return { headline: plain(headline), text: plain(paragraphs.join('\n')) };
};
const viewOf = (summary: ReturnType<typeof inventedStudy>): StudyView => new StudyView(summary);

describe('the verdict', () => {
  test('names one best design where one is far better than all others', () => {
    const { headline, text } = told(
      inventedStudy({
        factors: [HEIGHT, SENSOR],
        response: ({ height_m, sensor }) => (height_m === '0.7' && sensor === 'barrier' ? 2 : 12),
      }),
    );
    expect(headline).toBe('Design 3 is the best of 8, with 95 % confidence.');
    expect(text).toContain('Design 3: height 0.7 m, sensor barrier.');
    expect(text).toContain('No other design can be taken for it');
    const [, low, high] = /comes to [\d.]+ \(95 % interval ([\d.]+) to ([\d.]+)\)/.exec(text)!;
    // The truth lies in the interval; of twenty such tests one would fail, but chance here is always the same.
    expect(Number(low)).toBeLessThan(2);
    expect(Number(high)).toBeGreaterThan(2);
  });

  test('names no single best where all are alike, and no factor that matters', () => {
    const { headline, text } = told(inventedStudy({ factors: [HEIGHT, SENSOR], response: () => 5 }));
    expect(headline).toMatch(/^Design \d comes first of 8; [2-7] others may be as good or better\.$/);
    expect(text).toContain('Of no factor can it be told from chance that it matters');
    expect(text).toContain(', which may be chance.');
  });

  test('says how much the worst is worse: 10 in truth', () => {
    const { text } = told(
      inventedStudy({ factors: [SENSOR], response: ({ sensor }) => (sensor === 'barrier' ? 2 : 12) }),
    );
    const [, low, high] = /is worse than it by [\d.]+ \(([\d.]+) to ([\d.]+), with/.exec(text)!;
    expect(Number(low)).toBeLessThan(10);
    expect(Number(high)).toBeGreaterThan(10);
  });

  test('names the cheapest of those that can not be told apart', () => {
    // Spacing does nothing here, and costs.
    const summary = inventedStudy({
      factors: [HEIGHT, SPACING],
      response: ({ height_m }) => (height_m === '0.9' ? 3 : 20),
      effort: ({ spacing_m }) => ({ holes: 4, cable_m: null, hours: 2, cost: 100 - 500 * Number(spacing_m) }),
    });
    const view = new StudyView(summary);
    expect(view.perhaps.length).toBeGreaterThan(1);
    const least = Math.min(...view.perhaps.map((row) => view.design(row).effort.cost!));
    const { text } = told(summary);
    if (view.best!.effort.cost === least) expect(text).toContain('The first of them is the cheapest of them too');
    else expect(text).toContain(`cost ${least.toFixed(2)} crowns, against`);
  });

  test('the number of a bad best design stands there plainly', () => {
    const { text } = told(inventedStudy({ factors: [HEIGHT], response: () => 40 }));
    expect(text).toMatch(/comes to (?:39|4[01])/);
    expect(text).toContain('the best of what was tried can still be bad');
  });
});

describe('the weight of factors', () => {
  test('goes by all levels, not by one step: ten small steps outweigh one larger', () => {
    const levels = Array.from({ length: 11 }, (_, i) => ({ label: String(i), value: i }));
    const weights = factorWeights(
      new StudyView(
        inventedStudy({
          factors: [SENSOR, { ...HEIGHT, levels }],
          response: ({ height_m, sensor }) => 5 + Number(height_m) + (sensor === 'barrier' ? 0 : 4),
        }),
      ),
    );
    expect(weights.map(({ factor }) => factor)).toEqual([1, 0]);
    // By hand: ten steps of 1 against one of 4.
    expect(weights[0]!.span).toBeGreaterThan(9);
    expect(weights[0]!.span).toBeLessThan(11);
    expect(weights[1]!.span).toBeGreaterThan(3);
    expect(weights[1]!.span).toBeLessThan(5);
    expect(weights.every(({ sure }) => sure)).toBe(true);
  });
});

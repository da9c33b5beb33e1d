import { expect, test } from 'vitest';
import { summaryText } from '../../src/report/summary.js';
import { inventedDesign, inventedMetrics } from './fixture.js';

const lines = (colour: boolean): string[] => summaryText(inventedDesign(), inventedMetrics(), { colour }).split('\n');

test('the summary opens with the answer and names the mix', () => {
  const text = lines(false).join(' ');
  expect(text).toContain('No, not like this.');
  expect(text).toContain('With 62 % adults going through, 24 % children going through');
  expect(text).toContain('Worst there: adults two abreast');
});

test('every door and logic has its row with intervals beneath', () => {
  const text = lines(false);
  const row = text.findIndex((l) => l.startsWith('four-level'));
  expect(text[row - 1]).toBe('door hall-door, 4,120 crossings');
  expect(text[row]).toMatch(/^four-level\s+9\.3\s+6\.1\s+0\.41\s+0\s+2\.8\s+-2\.1$/);
  expect(text[row + 1]).toMatch(/7\.9–10\.7\s+5\.0–7\.3\s+0\.20–0\.62\s+0–0\.09\s+2\.1–3\.4\s+-4\.0 to -0\.2$/);
});

test('it fits a terminal of 80 characters', () => {
  for (const line of lines(false)) expect(line.length).toBeLessThanOrEqual(80);
});

test('targets say how many more replicates would decide', () => {
  expect(lines(false).join('\n')).toMatch(
    /undecided: door hall-door: missed per 100 crossings, at most 7\n.*about 31 more replicates would decide/,
  );
});

test('without colour there is no escape sequence, with colour there is', () => {
  // oxlint-disable-next-line no-control-regex
  expect(lines(false).join('\n')).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f]/);
  expect(lines(true).join('\n')).toContain('\u001b[');
});

test('a hostile name brings no control character to the terminal', () => {
  const metrics = inventedMetrics();
  const [first] = metrics.doors;
  if (first === undefined) throw new Error('the fixture has doors');
  first.door = '\u001b[2Jgone\u202e';
  metrics.scenario = '\u001b]0;title\u0007';
  const text = summaryText(inventedDesign(), metrics, { colour: false });
  // oxlint-disable-next-line no-control-regex
  expect(text).not.toMatch(/[\u001b\u0007\u202e]/);
});

/** docs/plan-and-effort.md: the house worked by hand there comes out so. */
import { expect, test } from 'vitest';
import { effortOf } from '../../src/effort/effort.js';
import { holesIn } from '../../src/effort/share.js';
import { money } from '../../src/report/effort-words.js';
import { PARTS } from '../../src/scenario/effort-schema.js';
import { blocks, codes, page } from '../acceptance/markdown.js';
import { designOf } from '../scenario/helpers.js';

const text = page('docs/plan-and-effort.md');
const effort = effortOf(designOf(blocks(text, 'yaml')[0] ?? ''));

test('lengths, holes, amounts and minutes of the page are those of its scenario', () => {
  for (const { ends } of effort.doors) for (const { drilled_m } of ends) expect(text).toContain(`| ${drilled_m} m |`);
  const { drilled, surface } = effort.total;
  expect(text).toContain(`= ${drilled.cable_m} m.`);
  expect(text).toContain(`down: ${surface.raceway_m} m.`);
  expect(text).toContain(`= ${holesIn(drilled.holes)} | 0 |`);
  for (const { parts_cents, work_cents, minutes } of [drilled, surface]) {
    for (const cents of [parts_cents, work_cents!])
      expect(text).toContain(
        money(cents, 'crowns')
          .replace(/[\u2068\u2069]/g, '')
          .replace('\u00a0', ' '),
      );
    expect(text).toContain(`= ${minutes} |`);
  }
  expect(text).toContain(`= ${effort.watt_hours_a_day} Wh a day`);
});

test('every part that can have a price is named', () => {
  for (const part of PARTS) expect(codes(text)).toContain(part);
});

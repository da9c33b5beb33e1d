/** The scenario in a report's page: whatever it holds it comes back, and whatever was done to the page nothing is thrown. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { carriedScenario } from '../../../src/report/carried/block.js';
import { carriedIn, isWebPage } from '../../../src/report/carried/read.js';
import { scenarioText } from '../../../src/report/reproduce.js';
import { headed } from '../../../src/scenario/heading.js';
import { inventedDesign } from '../fixture.js';

const text = fc.string({ unit: 'binary', maxLength: 300 });
/** Pieces that markup is made of are likelier than chance would have them. */
const nasty = fc
  .array(
    fc.oneof(
      text,
      fc.constantFrom('</script>', '<!--', '-->', '<script>', ']]>', '\u2028', '\\u003c', '"', '\\', '\ud800'),
    ),
  )
  .map((parts) => parts.join(''));

describe('any table', () => {
  test('comes back as it was, from a block in plain ASCII that only its own end ends', () => {
    fc.assert(
      fc.property(nasty, nasty, (name, table) => {
        const design = { ...inventedDesign(), name: name.slice(0, 80), tables: { 'logic.yaml': table } };
        const block = carriedScenario(design, '1.2.3').text;
        expect(block).toMatch(/^<script type="application\/json" id="jambeam-scenario">[ -;=?-~]*<\/script>$/);
        expect(block.slice(0, -'</script>'.length)).not.toMatch(/&|<\/|<!/);
        expect(carriedIn(`<!doctype html><p>${block}</p>`)).toEqual({
          format: 1,
          jambeam: '1.2.3',
          scenario: scenarioText(design),
          tables: { 'logic.yaml': table },
        });
      }),
      { numRuns: 200 },
    );
  });
});

test('a heading from the command line is carried as one that stands in the scenario', () => {
  const heading = { title: 'Way in', prepared_by: 'A. Builder' };
  const { format, name, ...rest } = inventedDesign();
  const written = scenarioText({ format, name, ...heading, ...rest });
  expect(written).toMatch(/^name: .*\ntitle: Way in\nprepared_by: A\. Builder\n/m);
  expect(scenarioText(headed({ format, name, ...rest }, heading))).toBe(written);
  const other = { format, name, title: 'Other', prepared_by: 'B.', ...rest };
  expect(scenarioText(headed(other, heading))).toBe(written);
  expect(scenarioText(headed(other, {}))).toBe(scenarioText(other));
});

describe('any page', () => {
  const whole = `<!doctype html><main></main>${carriedScenario(inventedDesign(), '1.2.3').text}</html>`;

  test('gives a scenario or says in words why not, wherever it is cut, and whatever is put in', () => {
    const at = fc.integer({ min: 0, max: whole.length });
    fc.assert(
      fc.property(at, at, nasty, (from, to, put) => {
        const found = carriedIn(whole.slice(0, Math.min(from, to)) + put + whole.slice(Math.max(from, to)));
        expect('fault' in found ? found.fault : found.scenario).toMatch(/\w/);
      }),
      { numRuns: 500 },
    );
  });

  test('takes time in proportion to its length, however many tags stay open', () => {
    const begin = performance.now();
    carriedIn('<script '.repeat(2_000_000));
    carriedIn(`<script id="${'x'.repeat(16_000_000)}`);
    carriedIn(`<script ${'a="b" '.repeat(2_000_000)}`);
    expect(performance.now() - begin).toBeLessThan(5000);
  });

  test('is told from a scenario by how it begins', () => {
    for (const page of [
      '<!doctype html>',
      '<!DOCTYPE HTML >',
      '\ufeff\n <!doctype html>',
      '<html lang="en">',
      '<!-- saved --><html>',
    ])
      expect(isWebPage(page), page).toBe(true);
    for (const other of ['format: 1', '# <!doctype html>', '"<html>"', '<htmlish>', '', '<?xml version="1.0"?>'])
      expect(isWebPage(other), other).toBe(false);
  });
});

import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { renderReport } from '../../src/report/report.js';
import type { ReportInput } from '../../src/report/report-input.js';
import { copiedCommand, scenarioText } from '../../src/report/reproduce.js';
import { designSchema, scenarioSchema, type Design } from '../../src/scenario/schema.js';
import { metricsSchema, type Estimate, type Metrics } from '../../src/score/metrics-schema.js';
import { inventedDesign, inventedInput, inventedMetrics } from './fixture.js';
import { expectWholeByItself } from './whole.js';

const textOf = (page: string): string =>
  page
    .replace(/<style>.*?<\/style>/s, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/[\u2068\u2069]/g, '')
    .replace(/\u00a0/g, ' ')
    .replace(/\s+/g, ' ');

/** Every estimate of a run replaced. */
function everywhere(metrics: Metrics, change: (e: Estimate) => Estimate): Metrics {
  const walk = (node: unknown): unknown => {
    if (Array.isArray(node)) return node.map(walk);
    if (typeof node !== 'object' || node === null) return node;
    if ('value' in node && 'method' in node) return change(node as Estimate);
    return Object.fromEntries(Object.entries(node).map(([k, v]) => [k, walk(v)]));
  };
  return metricsSchema.parse(walk(metrics));
}

/** The invented run 25 times over, under numbered names. */
function fiftyDoors(): ReportInput {
  const input = inventedInput();
  const numbered = <T extends object>(rows: readonly T[]): T[] =>
    Array.from({ length: 25 }, (_, i) =>
      rows.map((row) => {
        const renamed = Object.entries(row).map(([key, value]): [string, unknown] =>
          ['door', 'room', 'name'].includes(key) ? [key, `${String(value)}${i}`] : [key, value],
        );
        return Object.fromEntries(renamed) as T;
      }),
    ).flat();
  const { design, metrics, figures } = input;
  return {
    ...input,
    design: { ...design, doors: numbered(design.doors), rooms: numbered(design.rooms) },
    metrics: { ...metrics, doors: numbered(metrics.doors), rooms: numbered(metrics.rooms) },
    figures: { ...figures, drift: numbered(figures.drift), rooms: numbered(figures.rooms) },
  };
}

describe('the report', async () => {
  const page = await renderReport(inventedInput());
  const text = textOf(page);

  test('is whole by itself: no script, nothing to fetch, no link, a policy that forbids them', () => {
    expectWholeByItself(page);
    expect(page).toContain(`content="default-src &#39;none&#39;; style-src &#39;unsafe-inline&#39;; img-src data:;`);
  });

  test('keeps the promised order', () => {
    const ids = [...page.matchAll(/<h2 id="([a-z]+)"/g)].map((m) => m[1]);
    const order =
      'verdict unwise seen answer doorways confusion drift rooms whom week why logics effort cautions shares sources limits reproduce words';
    expect(ids).toEqual(order.split(' '));
  });

  test('has unique ids, and every label points at one', () => {
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map((m) => m[1]);
    expect(new Set(ids).size).toBe(ids.length);
    const labels = [...page.matchAll(/aria-labelledby="([^"]+)"/g)].flatMap((m) => (m[1] ?? '').split(' '));
    expect(labels.length).toBeGreaterThan(20);
    for (const label of labels) expect(ids).toContain(label);
    for (const [, used] of page.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(used);
  });

  test('says in words what goes wrong most, with its interval', () => {
    expect(text).toContain('is 9.3 (95 % interval 7.9 to 10.7), where at most 5 was asked: missed.');
    // Within a paragraph the first interval is called one, the others stand in brackets alone.
    expect(text).toContain('Worst there: adults two abreast, with 255 (251 to 260) of them');
    expect(text).toContain('wrong most often for their visits are adults lingering , 86 (95 % interval 75 to 97)');
  });

  test('lists its sections, and every link leads somewhere', () => {
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map((m) => m[1]);
    const links = [...page.matchAll(/<a href="#([^"]+)"/g)].map((m) => m[1]);
    for (const link of links) expect(ids).toContain(link);
    const listed = [...(/<nav.*?<\/nav>/s.exec(page)?.[0] ?? '').matchAll(/href="#([^"]+)"/g)].map((m) => m[1]);
    expect(listed).toEqual([...page.matchAll(/<h2 id="([a-z]+)"/g)].map((m) => m[1]).slice(3));
  });

  test('prints all cautions', () => {
    for (const word of [
      'fire door',
      'cables and pipes',
      'licensed electrician',
      'IEC 62471',
      'dogs and cats',
      'personal data',
      'roll-call',
    ]) {
      expect(text).toContain(word);
    }
  });

  test('shows the table logic as a picture', () => {
    expect(page).toContain('<title>Counting logic my-table as states and arrows</title>');
  });

  test('stays far below its size limit, and is the same each time', async () => {
    expect(Buffer.byteLength(page)).toBeLessThan(1_500_000);
    expect(await renderReport(inventedInput())).toBe(page);
  });

  test('stays below it for fifty doors with three logics, too', async () => {
    // Its scenario is in it twice: to read, and as data to run.
    expect(Buffer.byteLength(await renderReport(fiftyDoors()))).toBeLessThan(1_600_000);
  });

  test('never prints a number that is none', () => {
    expect(text).not.toMatch(/\bNaN\b|Infinity|undefined|\[object|\bnull\b/);
  });
});

describe('runs with holes in them', () => {
  const render = async (change: Partial<ReportInput>): Promise<string> =>
    textOf(await renderReport({ ...inventedInput(), ...change }));

  test('nobody came: each number says why it is missing', async () => {
    const empty = everywhere(inventedMetrics(), (e) => ({
      ...e,
      value: null,
      low: null,
      high: null,
      method: 'none',
      reason: 'no crossing',
    }));
    const text = await render({ metrics: empty });
    expect(text).toContain('not known (no crossing) at door hall-door');
    expect(text).not.toMatch(/NaN|Infinity|undefined/);
  });

  test('one replicate: values without intervals', async () => {
    const single = everywhere(inventedMetrics(), (e) => ({
      ...e,
      low: null,
      high: null,
      method: 'none',
      reason: 'one replicate',
    }));
    expect(await render({ metrics: single })).toContain('9.31 (no interval: one replicate)');
  });

  test('walkers who did what the mix gives to others are told', async () => {
    const { metrics } = inventedInput();
    const told = 'somebody else who was there went';
    expect(await render({})).not.toContain(told);
    const [kind] = metrics.doors[0]?.by_kind ?? [];
    if (kind === undefined) throw new Error('the fixture has kinds');
    metrics.doors[0]?.by_kind.push({ ...kind, who: 'child', kind: 'against', visits: 12 });
    expect(await render({ metrics })).toContain(`12 visits are of kinds`);
  });

  test('one logic alone is not compared with others', async () => {
    const { design, metrics } = inventedInput();
    const logics = design.logics.slice(0, 1);
    const doors = metrics.doors.filter((d) => d.logic === logics[0]?.name);
    const text = await render({ design: { ...design, logics }, metrics: { ...metrics, doors } });
    expect(text).toContain('The logic in numbers');
    expect(text).not.toContain('All logics saw');
  });

  test('no room, no target, no picture, no source', async () => {
    const text = await render({
      metrics: { ...inventedMetrics(), rooms: [], targets: [] },
      figures: { format: 1, drift: [], room_drift: [], survival: [], hourly: [], rooms: [], silhouettes: [] },
      sources: [],
    });
    expect(text).toContain('No target was set');
    expect(text).not.toContain('Rooms over time');
  });
});

describe('names of the user’s own', () => {
  const HOSTILE = `"><script>alert(1)</script>'&amp;\u202eדלת\u0000 🚪 --> <!-- ]]>`;

  test('cannot become markup, wherever they stand', async () => {
    const input = inventedInput();
    const rename = <T>(value: T): T =>
      JSON.parse(
        JSON.stringify(value).replace(/hall-door|kitchen|my-table|logic\.yaml/g, () =>
          JSON.stringify(HOSTILE).slice(1, -1),
        ),
      ) as T;
    const page = await renderReport({
      ...input,
      design: rename({ ...input.design, name: HOSTILE, seed: HOSTILE, tables: {} }),
      metrics: rename({ ...input.metrics, scenario: HOSTILE, seed: HOSTILE }),
      figures: rename(input.figures),
      sources: rename(input.sources),
      version: HOSTILE,
    });
    expect(page.match(/<script[^>]*>/g)).toEqual(['<script type="application/json" id="jambeam-scenario">']);
    expect(page).not.toContain('<!-- ');
    expect(page.includes('\u0000') || page.includes('\u202e')).toBe(false);
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(page).toContain('דלת');
    expect(page).toContain('🚪');
  });
});

describe('how to reproduce it', () => {
  test('the printed scenario gives the same design again', () => {
    const design = designSchema.parse({ ...inventedDesign(), name: 'a\u202eb "c": #d\u0007', seed: '007' });
    const { tables: _tables, ...scenario } = design;
    const text = scenarioText(design);
    expect(text.includes('\u202e') || text.includes('\u0007')).toBe(false);
    const again = parse(text) as Design;
    expect(again).toEqual(scenario);
    expect(scenarioSchema.safeParse(again).success).toBe(true);
  });

  test('the command for a copied scenario names extent and seed, quoted where a shell needs it', () => {
    const design = inventedDesign();
    expect(copiedCommand(design)).toBe('jambeam run scenario.yaml --seed 7 --replicates 20 --hours 8');
    expect(copiedCommand({ ...design, seed: `it's $HOME` })).toContain(`--seed 'it'\\''s $HOME'`);
  });
});

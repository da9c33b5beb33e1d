/** The report of designs with rangers: where they are, how they are read and set, what to mind. */
import { describe, expect, test } from 'vitest';
import { figuresSchema } from '../../src/cli/figures-schema.js';
import { CAUTIONS, cautionsFor } from '../../src/report/cautions.js';
import { readWords } from '../../src/report/reading-words.js';
import { renderReport } from '../../src/report/report.js';
import { switchingWords } from '../../src/report/switching-words.js';
import { summaryText } from '../../src/report/summary.js';
import { designSchema, type Design } from '../../src/scenario/schema.js';
import { switchingSchema } from '../../src/sensors/switching/schema.js';
import { allFigures } from '../../src/simulate/sources.js';
import { inventedInput } from './fixture.js';
import { RANGER_KINDS, oneDoor, rangerDesign, rangerInput } from './ranger-fixture.js';

const plainly = (text: string): string => text.replace(/[\u2068\u2069]/g, '').replace(/\u00a0/g, ' ');
const textOf = (page: string): string =>
  plainly(page.replace(/<style>.*?<\/style>/s, '').replace(/<[^>]*>/g, ' ')).replace(/\s+/g, ' ');
const words = (design: Design, door: string): string => {
  const found = design.doors.find((d) => d.name === door);
  if (!found) throw new Error(`no door ${door}`);
  return plainly(readWords(design, found));
};

describe.each(RANGER_KINDS)('a report of %ss', async (kind) => {
  const page = await renderReport(rangerInput(kind));
  const text = textOf(page);

  test('describes every place for those who do not see the drawing', () => {
    for (const sentence of [
      'Ranger A sits in the left jamb, 0.95 m above the floor, straight across.',
      'Ranger B sits in the right jamb, 0.95 m above the floor, straight across.',
      'Ranger A sits in the left jamb, 0.95 m above the floor, turned 5.7° forward.',
      'Ranger B sits in the right jamb, 0.95 m above the floor, turned 5.7° backward.',
      'Ranger A sits in the left jamb, 1.20 m above the floor, tilted 25° down.',
      'Ranger A hangs under the lintel, in the middle, 2.00 m above the floor, straight down.',
      'Ranger above hangs under the lintel, 0.25 m from the left jamb, 2.00 m above the floor, tilted 15° toward the right jamb.',
      'Light barrier gate runs from the left jamb, 0.90 m above the floor, to the right jamb, 1.00 m above it.',
    ])
      expect(text).toContain(sentence);
  });

  test('shades what each ranger looks into, within its picture, and nothing for a barrier', () => {
    const drawings = [...page.matchAll(/<svg class="drawing" viewBox="0 0 ([\d.]+) ([\d.]+)".*?<\/svg>/gs)];
    expect(drawings).toHaveLength(14);
    for (const [drawing, width, height] of drawings) {
      const shaded = [...drawing.matchAll(/class="sight[^"]*" d="M([^"]*)Z"/g)].map((m) => m[1] ?? '');
      expect(shaded.length).toBeGreaterThan(0);
      for (const [x, y] of shaded.flatMap((d) => d.split('L').map((p) => p.split(' ').map(Number)))) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThanOrEqual(Number(width));
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(Number(height));
      }
    }
    // Of the last door's seven beams one is a barrier; from above two rangers are one behind the other.
    const counts = drawings.slice(-2).map(([drawing]) => [...drawing.matchAll(/class="sight /g)].length);
    expect(counts).toEqual([6, 5]);
  });

  test('has unique ids, and no number that is none', () => {
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map((m) => m[1]);
    expect(new Set(ids).size).toBe(ids.length);
    expect(text).not.toMatch(/\bNaN\b|Infinity|undefined|\[object|\bnull\b/);
    expect(page).not.toMatch(/NaN|Infinity|undefined/);
  });

  test('tells settings with what they mean, and how readings switch', () => {
    expect(text).toContain('Broken while a reading is more than 0.15 m nearer than the learnt background');
    expect(text).toContain('dropout_share 0 Share of readings that come back without echo');
  });

  test('tells what the headline would be with other clothes', () => {
    expect(text).toContain('first 4 replicates ran again');
    expect(text).toMatch(/least everybody.s clothes take the least assumed 4\.1/);
  });
});

test('the air is told where sound matters, daylight where light does', async () => {
  const [sonic, , light] = await Promise.all(
    RANGER_KINDS.map(async (k) => textOf(await renderReport(rangerInput(k, oneDoor(rangerDesign(k), 'left'))))),
  );
  expect(sonic).toContain('Air of 20 °C, 50 % relative humidity and 101.325 kPa, in which sound travels at 343.2 m/s');
  expect(sonic).not.toContain('Daylight of');
  expect(light).toContain('Daylight of 0.2 klx on what optical rangers look at');
  expect(light).not.toContain('sound travels');
});

describe('cautions', () => {
  const said = (design: Design): string =>
    plainly(
      cautionsFor(design)
        .map(({ text }) => text)
        .join('\n'),
    );
  const withFrequency = (frequency_khz: number): string => {
    const sensors = { 'ultrasonic-ranger': { kind: 'ultrasonic-ranger', frequency_khz } };
    return said(designSchema.parse({ ...rangerDesign('ultrasonic-ranger'), sensors }));
  };

  test('tell how loud the rangers are, and which animals hear them', () => {
    expect(withFrequency(40)).toMatch(/send 40 kHz all day, with up to 105 dB at a metre.*Watch your animals/);
    expect(withFrequency(60)).toContain('So cats may hear them');
    expect(withFrequency(150)).toContain('So neither is likely to hear them');
  });

  test('name the optical sensors that eyes must be kept from', () => {
    const text = said(rangerDesign('time-of-flight-ranger'));
    expect(text).toContain('That goes for the optical time-of-flight rangers and light barriers of this design.');
    expect(text).not.toContain('of this design send');
  });

  test('of a design with barriers alone say nothing of rangers, and its report nothing of clothes', async () => {
    const input = inventedInput();
    expect(said(input.design)).toContain('That goes for the light barriers of this design.');
    expect(said(input.design)).not.toContain('The rangers of this design');
    expect(textOf(await renderReport(input))).not.toContain('How much clothes take');
  });

  test('those that always stand stay as they are', () => {
    const all = cautionsFor(rangerDesign('ultrasonic-ranger'));
    expect(all.map(({ title }) => title)).toEqual(CAUTIONS.map(({ title }) => title));
    CAUTIONS.forEach(({ text }, i) => expect(all[i]?.text.startsWith(text)).toBe(true));
  });
});

describe('how rangers are read', () => {
  const pair = (controller: Readonly<Record<string, unknown>>): Design =>
    oneDoor(rangerDesign('ultrasonic-ranger', controller), 'interleaved');

  // By hand: 1.6 m of sound at 343.2 m/s take 4.662 ms, no echo 38 ms, the loop 0.1 ms, and there are two turns.
  test('waiting for the echo: two turns of 4.662 + 0.1 + 20 ms, or of 38 + 0.1 + 20 ms', () => {
    const text = words(pair({ wait_ms: 20 }), 'interleaved');
    expect(text).toContain('reads rangers in turns: A, then B, then again');
    expect(text).toContain('after the echo, or the time-out, it waits 20 ms before the next turn');
    expect(text).toContain('So A and B are each read every 49.5 ms with nobody there, every 116.2 ms at the slowest.');
  });

  test('a cycle that is too short is stretched to 38.1 ms', () => {
    const text = words(pair({ cycle_ms: 30 }), 'interleaved');
    expect(text).toContain('too short for a turn at its slowest, which takes 38.1 ms');
    expect(text).toContain('every 60 ms with nobody there, every 76.2 ms at the slowest');
  });

  test('a cycle that is long enough holds', () => {
    expect(words(pair({ cycle_ms: 50 }), 'interleaved')).toMatch(/are each read every 100 ms\.$/);
  });

  test('read together they take one turn', () => {
    const turns = [['interleaved.A', 'interleaved.B']];
    const text = words(pair({ cycle_ms: 50, turns }), 'interleaved');
    expect(text).toContain('reads A and B again and again');
    expect(text).toContain('send at the same moment');
    expect(text).toMatch(/are each read every 50 ms\.$/);
  });

  // 24 characters of 10 bits at 9600 Bd: 25 ms; with 0.1 ms of loop and 38 ms 63.1 ms a turn.
  test('the serial line and what comes after a round count too', () => {
    const text = words(
      pair({ cycle_ms: 50, serial_characters: 24, serial_baud: 9600, per_round_ms: 5 }),
      'interleaved',
    );
    expect(text).toContain('24 characters a reading to a serial line of 9,600 Bd');
    expect(text).toContain('other work for 5 ms');
    expect(text).toContain('every 105 ms with nobody there, every 131.2 ms at the slowest');
  });

  test('other doors’ rangers are named with their door, many are counted', () => {
    const all = rangerDesign('ultrasonic-ranger');
    expect(words(all, 'left')).toContain('reads 18 rangers in 18 turns');
    const two = { ...all, doors: all.doors.slice(0, 2) };
    expect(words(two, 'left')).toContain('A, then B, then A of door right, then B of door right, then again');
  });

  test('barriers beside them are read in their own way', () => {
    expect(words(rangerDesign('ultrasonic-ranger', { poll_ms: 5 }), 'many')).toMatch(
      /^The light barriers are read together every 5 ms\. Controller main/,
    );
  });
});

test('switching in words', () => {
  const say = (settings: object): string => plainly(switchingWords(switchingSchema.parse(settings)));
  expect(say({ nearer_than_m: 0.7, hysteresis_m: 0.05, median_of: 3, minimum_samples: 2, off_delay_ms: 200 })).toBe(
    'Broken while a reading is nearer than 0.70 m, clear again from 0.05 m beyond that; the median of 3 readings is looked at, 2 readings in a row must agree before it breaks and it clears only after 200 ms of clear readings. A reading without echo counts as clear.',
  );
  expect(say({ no_echo: 'keep', follow_um: 0, hysteresis_m: 0 })).toBe(
    'Broken while a reading is more than 0.15 m nearer than the learnt background, otherwise clear. The background is the median of the first 15 readings. A reading without echo changes nothing.',
  );
});

test('the summary names the sensors', () => {
  const { design, metrics } = rangerInput('ultrasonic-ranger');
  expect(summaryText(design, metrics, { colour: false })).toContain(
    '\nSensors: ultrasonic rangers and light barriers\n',
  );
});

test('what clothes take comes back from figures.json as it went in', () => {
  const { figures } = rangerInput('ultrasonic-ranger');
  const read = (text: string): unknown => figuresSchema.parse(JSON.parse(text));
  expect(read(JSON.stringify(figures))).toEqual(figures);
  expect(() => read(JSON.stringify({ ...figures, clothing: [{ what: 'some' }] }))).toThrow();
});

test('of all built-in figures about kinds of sensors only those in use are listed', async () => {
  const input = rangerInput('triangulation-ranger', oneDoor(rangerDesign('triangulation-ranger'), 'left'));
  const listed = await renderReport({ ...input, sources: allFigures() });
  const kinds = [...listed.matchAll(/sensor\.(\w+)\./g)].map((m) => m[1]);
  // What is about controllers holds for all.
  expect(new Set(kinds)).toEqual(new Set(['triangulation', 'controller']));
  // Those of people stay.
  expect(listed).toContain('people.');
});

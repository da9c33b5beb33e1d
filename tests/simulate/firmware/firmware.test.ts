/** Source for a door compiles without a warning, passes its own vectors, and would not if it were wrong. */
import { describe, expect, test } from 'vitest';
import { tableOf } from '../../../src/counter/table-of.js';
import { compileTable } from '../../../src/counter/table/compile.js';
import { firmwareOf } from '../../../src/simulate/firmware/firmware.js';
import { COMPILERS, NO_COMPILERS, compile, folderOf, play } from '../../c-compilers.js';
import { designOf as parsed, edit } from '../../scenario/helpers.js';
import { DOORS, designOf, filesOf, firmwareFor, newFirmwareFor } from './doors.js';
import { plainRun } from '../plain-run.js';
import { LONG } from '../../how-many.js';

const all = Object.entries(DOORS);
/** The default run compiles the doors with one compiler each, by turns. */
const compilersOf = (door: number) => (!LONG ? [COMPILERS[door % COMPILERS.length]!] : COMPILERS);

describe.skipIf(NO_COMPILERS)('the source', () => {
  test.each(all.map(([door, choice], i) => ({ door, choice, compilers: compilersOf(i) })))(
    '$door: no warning of $compilers, all vectors',
    ({ choice, compilers }) => {
      const firmware = firmwareFor(choice);
      const { names } = firmware;
      const folder = folderOf(filesOf(firmware));
      for (const compiler of compilers) {
        const program = compile(compiler, folder, [names.source, names.testProgram]);
        const { status, lines } = play(program, [`${folder}/${names.vectors}`]);
        expect({ status, lines }).toEqual({
          status: 0,
          lines: [expect.stringMatching(/^(?:[4-9]|[12]\d)\d{3} calls, 0 not as expected$/)],
        });
      }
    },
  );

  test('on inputs without end it does nothing undefined', () => {
    const firmware = newFirmwareFor(DOORS['rangers with a median']!, 20_000);
    const folder = folderOf(filesOf(firmware));
    const { source, testProgram, vectors } = firmware.names;
    const sanitize = ['-fsanitize=undefined,address', '-fno-sanitize-recover=all', '-Wconversion', '-Wshadow'];
    const program = compile('gcc', folder, [source, testProgram], sanitize);
    expect(play(program, [`${folder}/${vectors}`]).status).toBe(0);
  });

  // Each would go unnoticed by vectors that don't come there.
  test.each([
    ['a timeout that comes a microsecond late', '>= after_us) {', '> after_us) {'],
    ['levels that are not looked at after a timeout', '(void)look(table, moment, sum);', ''],
    ['forward for backward', 'tallies >> 4', 'tallies & 15'],
    [
      'a clock of 31 bits',
      '(uint32_t)(now_us - moment->since_us) >=',
      '((now_us & 0x7fffffffu) - (moment->since_us & 0x7fffffffu)) >=',
    ],
    ['a median of another rank', '(uint8_t)(count / 2)', '(uint8_t)(count / 3)'],
    ['hysteresis forgotten', ' + is->hysteresis_um', ''],
    ['a background that does not follow', 'beam->background_um += is->follow_um;', ''],
    ['a switch-off delay that isn’t watched', 'beam->pending == 1 && ', 'beam->pending == 3 && '],
    [
      'silence taken for the reading before',
      'scan->readings_um[i] = DOOR1_NO_ECHO;\n    }\n    scan->from_us',
      'scan->readings_um[i] = scan->readings_um[i];\n    }\n    scan->from_us',
    ],
    ['a cycle from end to start', 'turn->cycle_us - gone_us', 'turn->cycle_us'],
    ['a turn that is never done', 'scan->turn = (uint8_t)(scan->turn + 1);', ''],
  ])('vectors find %s', (_, right, wrong) => {
    const found = ['light barriers under hold-off', 'rangers with a median', 'rangers with a switch-off delay'].some(
      (door) => {
        const firmware = firmwareFor(DOORS[door]!);
        const { names, texts } = firmware;
        if (!texts.source.includes(right)) return false;
        const folder = folderOf({ ...filesOf(firmware), [names.source]: texts.source.replace(right, wrong) });
        const program = compile('gcc', folder, [names.source, names.testProgram], ['-Wno-unused']);
        return play(program, [`${folder}/${names.vectors}`]).status === 1;
      },
    );
    expect(found).toBe(true);
  });

  test('two doors stand in one program', () => {
    const design = designOf({ scenario: 'two-doors' });
    const table = tableOf(design.logics[0]!, design.tables)!;
    const [one, two] = [0, 1].map((i) => firmwareOf(design, design.doors[i]!, table, 500));
    const both = `#include "door1.h"
#include "door2.h"
int main(void)
{
    static door1_counter one;
    static door2_counter two;
    door1_start(&one, 0);
    door2_start(&two, 0);
    return door1_broken(&one) + door2_broken(&two);
}
`;
    const folder = folderOf({ ...filesOf(one!), ...filesOf(two!), 'both.c': both });
    const program = compile('gcc', folder, ['door1.c', 'door2.c', 'both.c']);
    expect(play(program, []).status).toBe(0);
  });

  test('the edges of a simulated day give the tallies of the run', () => {
    const design = { ...designOf({ scenario: 'shin-height' }), replicates: 1, hours: 24 };
    const edges: [time_us: number, beam: number, level: number][] = [];
    const tallies: string[] = [];
    const logic = design.logics[0]!;
    plainRun(design, {
      edge: (_replicate, row) => edges.push([row.time_us, row.beam, row.level]),
      tally: (_replicate, row) => {
        if (row.logic === 0) tallies.push(`${row.time_us} ${row.direction}`);
      },
    });
    expect(tallies.length).toBeGreaterThan(200);
    const firmware = firmwareOf(design, design.doors[0]!, tableOf(logic, design.tables)!, 500);
    const main = `#include <stdio.h>
#include "door1.h"
int main(void)
{
    static door1_counter door;
    unsigned long long time_us;
    unsigned levels;
    door1_start(&door, 0);
    while (scanf("%llu %u", &time_us, &levels) == 2) {
        door1_tallies tallies = door1_levels(&door, (uint32_t)time_us, (uint8_t)levels);
        for (; tallies.forward > 0; tallies.forward--) printf("%llu forward\\n", time_us);
        for (; tallies.backward > 0; tallies.backward--) printf("%llu backward\\n", time_us);
    }
    return 0;
}
`;
    const folder = folderOf({ ...filesOf(firmware), 'main.c': main });
    const program = compile('clang', folder, ['door1.c', 'main.c']);
    let levels = 0;
    const input = edges.map(([time_us, beam, level], i) => {
      levels = level === 1 ? levels | (1 << beam) : levels & ~(1 << beam);
      // Changes at one instant are one input.
      return edges[i + 1]?.[0] === time_us ? '' : `${time_us} ${levels}\n`;
    });
    expect(play(program, [], input.join('')).lines).toEqual(tallies);
  });
});

test.each(all)('%s: the vectors count people in both directions', (_, choice) => {
  const told = { forward: 0, backward: 0 };
  for (const line of firmwareFor(choice).texts.vectors.split('\n')) {
    const [call, ...numbers] = line.split(' ');
    const [forward, backward] = numbers.slice(call === 'T' ? 1 : 2).map(Number);
    if (!['L', 'D', 'T'].includes(call!)) continue;
    told.forward += forward!;
    told.backward += backward!;
  }
  expect(Math.min(told.forward, told.backward)).toBeGreaterThan(2);
});

test('nothing a user wrote gets into code, comments, vectors or file names', () => {
  const words = ['Zebrafink', 'Quagga', 'Wombat', 'Okapi', 'Tapir'];
  const table = `format: 1
name: Zebrafink
beams: [Quagga, Wombat]
start: Okapi
defeated_by: "*/ Tapir"
states:
  Okapi:
    - { on: "10", go: Okapi, tally: forward }
    - { stay: other }
`;
  const text = edit('name: Back door', 'name: "*/ Tapir"')
    .replaceAll('back', 'Tapir')
    .replace(
      / +pair:\n.*\n.*\n/,
      '    beams:\n      - { name: Quagga, sensor: light-barrier, height_m: 1, at_m: -0.05 }\n      - { name: Wombat, sensor: light-barrier, height_m: 1, at_m: 0.05 }\n',
    )
    .concat('logics: [{ use: table, file: Okapi.yaml }]\n');
  const design = parsed(text, { readFile: () => table });
  const firmware = firmwareOf(design, design.doors[0]!, compileTable(table, 't').table!);
  const written = JSON.stringify(filesOf(firmware));
  for (const word of words) expect(written).not.toContain(word);
  // oxlint-disable-next-line no-control-regex -- plain ASCII is meant
  for (const part of Object.values(firmware.texts)) expect(part).toMatch(/^[\x20-\x7e\n]*$/);
});

test('no heap, no floating point, no header but that of the integers', () => {
  for (const [, choice] of all) {
    const { header, source } = newFirmwareFor(choice, 10).texts;
    const code = (header + source).replace(/\/\*[\s\S]*?\*\//g, '');
    expect([...code.matchAll(/#include (.*)/g)].map(([, name]) => name)).toEqual([
      '<stdint.h>',
      expect.stringMatching(/"door\d\.h"/),
    ]);
    expect(code).not.toMatch(/\b(?:malloc|calloc|free|float|double|delay|sleep|printf)\b|\d\.\d/);
  }
});

test('a table that counts eight at each change is no reason to stop', () => {
  const text = `format: 1
name: eight
beams: [A, B]
start: rest
states:
  rest:
    - { on: ["10", "01", "11", "00"], go: rest, tally: [forward, forward, forward, forward, forward, forward, forward, backward] }
`;
  const { table, issues } = compileTable(text, 'eight.yaml');
  expect(issues).toEqual([]);
  const design = designOf(DOORS['light barriers']!);
  const { texts } = firmwareOf(design, design.doors[0]!, table!);
  expect(texts.vectors).toMatch(/^L \d+ \d 7 1$/m);
});

test('the same door gives the same files', () => {
  const choice = DOORS['a ranger and a light barrier']!;
  expect(newFirmwareFor(choice).texts).toEqual(firmwareFor(choice).texts);
});

/** What `jambeam check` says. */
import { join } from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import picocolors from 'picocolors';
import { describe, expect, test } from 'vitest';
import { factIssues } from '../../src/cli/caution-words.js';
import { checkCommand, checkText } from '../../src/cli/check.js';
import type { Io } from '../../src/cli/io.js';
import { ladderSentences, ladderTable } from '../../src/cli/ladder-words.js';
import { UserProblem } from '../../src/cli/problem.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { deriveFacts } from '../../src/simulate/facts.js';
import { type LadderRow, heightLadder } from '../../src/simulate/ladder.js';
import { doorDesign } from '../simulate/designs.js';
import { folderWithDoor } from './jambeam.js';

const plainPaint = picocolors.createColors(false);

/** Standard output of a check, folded lines joined and no-break blanks plain. */
function check(edit: (text: string) => string = (text) => text, options = {}): string {
  const file = join(folderWithDoor(edit), 'door.yaml');
  let out = '';
  const io: Io = {
    out: (text) => void (out += text),
    err: () => undefined,
    colour: false,
    paint: plainPaint,
    errPaint: plainPaint,
    errIsTerminal: false,
  };
  void checkCommand(file, options, io);
  return out.replaceAll('\u00a0', ' ').replaceAll(join(file, '..'), '.');
}
const unfolded = (text: string) => text.replace(/\s+/g, ' ');

describe('a check of the starter', () => {
  const said = check();
  const words = unfolded(said);

  test('says first that it can be simulated, and what to mind with its place', () => {
    expect(said).toMatch(/^OK {2}\.\/door\.yaml can be simulated; \d cautions?\n/);
    expect(said).toMatch(/^caution: \.\/door\.yaml:27:17: doors\.front\.pair\.height_m: .* pass below 0\.95 m/m);
  });

  test('tells each door’s facts with numbers and units', () => {
    expect(words).toContain('Door front: outside to hall, 0.90 m wide, 2.00 m high');
    expect(words).toMatch(
      /Standing taller than this: adults all, .*children of 3–5 \d+(\.\d)? %.*\(2,000 drawn of each\)/,
    );
    expect(words).toMatch(/takes \d+ ms from A to B, the slowest \(0\.\d\d m\/s\) \d+ ms/);
    expect(words).toContain('none of 2,000 drawn pairs of adults fits side by side');
  });

  test('shows twelve rungs, the own one marked, and sentences about them', () => {
    const rungs = said.split('\n').filter((line) => /^ +\d\.\d\d m +\d\.\d\d /.test(line));
    expect(rungs).toHaveLength(12);
    expect(rungs.filter((line) => line.includes('◀ yours'))).toEqual([expect.stringMatching(/^ +0\.95 m /)]);
    expect(words).toMatch(/Adults are counted best between \d\.\d\d m and \d\.\d\d m/);
    expect(words).toMatch(/At your 0\.95 m: adults/);
  });

  test('draws the table logic, says what defeats the logics, and ends with what to mind', () => {
    expect(said).toContain('my-logic: beams A, B (0 clear, 1 broken), starts in rest');
    expect(said).toMatch(/00 +→ rest +tally forward/);
    expect(words).toContain('four-level: A body shallower than the spacing is never counted');
    expect(words).toContain('Never drill a fire door');
  });

  test('holds no control character and no line wider than a terminal’s 110 columns, messages apart', () => {
    // oxlint-disable-next-line no-control-regex
    expect(said).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2066-\u2069]/);
    const wide = said.split('\n').filter((line) => line.length > 110 && !/^(caution:| {2}hint:)/.test(line));
    expect(wide).toEqual([]);
  });
});

test('a slow poll, a wide frame of legs and emitters that see each other are cautions at their keys', () => {
  const said = check((text) =>
    text
      .replace('# poll_ms: 5 ', 'poll_ms: 200 ')
      .replace('height_m: 0.95 ', 'height_m: 0.2 ')
      .replace('spacing_m: 0.10 ', 'spacing_m: 0.04 ')
      .replace('separation: alternate', 'separation: none'),
  );
  for (const key of ['controllers.main.poll_ms', 'doors.front.pair.height_m', 'sensors.my-barrier.separation'])
    expect(said).toMatch(new RegExp(`^caution: \\./door\\.yaml:\\d+:\\d+: ${key}: `, 'm'));
});

describe('a check of rangers', () => {
  const rangers = (mount: string, controller: string) => `format: 1
name: Rangers
rooms: [{ name: hall }]
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    pair:
      sensor: own
      mount: ${mount}
      ${mount === 'lintel' ? '' : 'height_m: 0.95'}
      spacing_m: 0.1
    traffic: { arrivals_per_hour: 20, mix: [{ who: adult, kind: through, share: 1 }] }
sensors:
  own:
    kind: ultrasonic-ranger
    assumed_temperature_c: 20
    switching:
      nearer_than_m: 0.85
controllers:
  - name: main
    ${controller}
surroundings: { temperature_c: 40 }
logics: [four-level]
`;

  test('tells how often they are read, what they make of the idle door, and who is seen; cautions stand at their keys', () => {
    const said = check(() => rangers('interleaved', 'turns: [[front.A, front.B]]'));
    const words = unfolded(said);
    const cautions = {
      'controllers.main.turns':
        /front\.A hears front\.B over 0\.906 m in the same turn, and takes it for 0\.43\d m.*; 1 other pair does likewise/,
      'doors.front.pair.spacing_m': /over all of the width A and B, 0\.10 m apart, see a rod/,
      'sensors.own.assumed_temperature_c': /at 40 °C taken for 20 °C A and B read the idle door 29 mm too short/,
    };
    const lines = said.split('\n').filter((line) => line.startsWith('caution:'));
    for (const [key, message] of Object.entries(cautions)) {
      const found = lines.find((line) => line.includes(` ${key}: `) && message.test(line));
      expect(found, `${key} in\n${lines.join('\n')}`).toMatch(/^caution: \.\/door\.yaml:\d+:\d+: /);
    }
    expect(words).toContain('Rangers A and B, 0.95 m above the floor');
    expect(words).toMatch(
      /Controller main reads 2 rangers in 1 turn; a round takes 30 ms, up to 38\.1 ms without echoes/,
    );
    expect(words).toContain('It reads 0.871 m of the idle door (the frame is 0.90 m away along its axis)');
    expect(words).toContain('The air has 40 °C, the controller takes it for 20 °C: 1 m reads 33 mm too short');
    expect(words).toMatch(/going through alone, all of this door's walkers come near enough; read every 30 ms/);
    expect(words).not.toContain('wired to interrupts');
    const wide = said.split('\n').filter((line) => line.length > 110 && !/^(caution:| {2}hint:)/.test(line));
    expect(wide).toEqual([]);
  });

  test('two doors of one slow controller: its cycle is told once, for both', () => {
    const door = (name: string): string => `
  - name: ${name}
    from: outside
    to: hall
    width_m: 0.9
    pair: { sensor: ultrasonic-ranger, height_m: 0.95, spacing_m: 0.1 }
    traffic: { arrivals_per_hour: 20, mix: [{ who: adult, kind: through, share: 1 }] }`;
    const { design } = parseScenario(
      `format: 1
name: Two doors
rooms: [{ name: hall }]
doors:${door('front')}${door('back')}
controllers: [{ name: main, cycle_ms: 100 }]
logics: [four-level]
`,
      'door.yaml',
    );
    const facts = deriveFacts(design!, { drawn: 50, crossings: 2 });
    expect(facts.map(({ cautions }) => cautions.filter(({ code }) => code === 'scan_slow').length)).toEqual([1, 1]);
    const slow = factIssues(design!, facts, null)
      .map((issue) => formatIssue(issue).replaceAll('\u00a0', ' '))
      .filter((words) => words.includes('each of A and B is read'));
    expect(slow).toHaveLength(1);
    expect(slow[0]).toMatch(/^controllers\.main\.cycle_ms: .* every 400 ms: .*; all walkers are faster/);
  });

  test('under the lintel there is one height, so no ladder to climb', () => {
    const words = unfolded(check(() => rangers('lintel', 'cycle_ms: 60')));
    expect(words).toContain('Rangers A and B, looking down');
    expect(words).not.toMatch(/Standing taller than this|Height ladder|counted best/);
    expect(words).toMatch(/past the beams as they are.* At your 2\.00 m: adults/);
  });
});

test('--set changes what is checked, and what was set has no place in the file', () => {
  const said = check(undefined, { set: ['doors.front.beams.*.height_m=1.7'] });
  expect(said).toMatch(/^caution: doors\.front\.beams\.A\.height_m: .* pass below 1\.70 m/m);
  expect(unfolded(said)).toContain('At your 1.70 m');
});

test('--json is JSON with the facts, the ladder and every caution with its place', () => {
  const data = JSON.parse(check(undefined, { json: true })) as {
    ok: boolean;
    cautions: { path: string; place: { line: number } | null; text: string }[];
    doors: { door: string; beams: unknown[]; ladder: LadderRow[] }[];
  };
  expect(data.ok).toBe(true);
  expect(data.cautions.every(({ text, place }) => text.length > 0 && (place?.line ?? 0) > 0)).toBe(true);
  expect(data.doors).toHaveLength(1);
  expect(data.doors[0]!.ladder).toHaveLength(12);
  expect(data.doors[0]!.beams).toHaveLength(2);
});

test('a scenario that is not right is refused with all its problems', () => {
  expect(() => check((text) => text.replace('width_m: 0.9', 'widht_m: 0.9'))).toThrow(UserProblem);
});

test('colours are only paint: without them the words are the same', () => {
  const design = doorDesign();
  const found = {
    facts: deriveFacts(design, { drawn: 100, crossings: 20 }),
    ladders: [heightLadder(design, design.doors[0]!, { crossings: 20 })],
    defeated_by: ['A crowd.'],
  };
  const text = (colours: boolean) =>
    checkText(design, [], found, { file: 'door.yaml', paint: picocolors.createColors(colours) });
  expect(text(true)).toContain('\u001b[32m');
  expect(stripVTControlCharacters(text(true))).toBe(text(false));
  expect(text(false)).toMatch(/^OK {2}door\.yaml can be simulated; no cautions\n/);
});

describe('the ladder’s sentences claim only what its rungs show', () => {
  const row = (height_m: number, adult: number[], child: number[], own = false): LadderRow => ({
    height_m,
    own,
    level: true,
    cells: [cellOf('adult', adult), cellOf('child', child), cellOf('test rod', [1, 0, 0])],
  });
  const cellOf = (who: string, [breaks, missed, extra]: readonly number[]) => ({
    who,
    crossings: 200,
    breaks_per_crossing: breaks!,
    missed_per_100: missed!,
    extra_per_100: extra!,
    reversed_per_100: 0,
    wrong_per_100: missed! + extra!,
  });
  const told = (rows: LadderRow[]) => ladderSentences(rows).map((text) => text.replaceAll('\u00a0', ' '));

  test('a clear band with legs below and heads above', () => {
    const rows = [
      row(0.2, [1.9, 5, 40], [1.8, 60, 2]),
      row(0.8, [1.2, 4, 2], [1, 0, 0], true),
      row(1.1, [1, 0, 0], [0.7, 30, 0]),
      row(1.3, [1, 0.5, 0], [0.3, 70, 0]),
      row(1.7, [0.4, 60, 0], [0, 100, 0]),
    ];
    expect(told(rows)).toEqual([
      'Adults are counted best between 1.10 m and 1.30 m, at most 0.5 wrong per 100; below, legs or arms are seen one by one (up to 1.90 breaks a crossing): up to 5 in 100 are missed and up to 40 in 100 are counted falsely; above, some pass without a break (down to 0.40 a crossing): up to 60 in 100 are missed.',
      'Children are counted best at 0.80 m, none wrong; below, legs or arms are seen one by one (up to 1.80 breaks a crossing): up to 60 in 100 are missed and up to 2 in 100 are counted falsely; above, some pass without a break (down to 0.00 a crossing): up to 100 in 100 are missed.',
      'Best for all of them at 0.80 m: at most 6 wrong per 100 of either.',
      'At your 0.80 m: adults 6 wrong per 100 and children 0.',
    ]);
  });

  test('nothing is said of what lies below or above when nothing goes wrong there', () => {
    const rows = [row(0.5, [1, 0, 0], [1, 0, 0]), row(1, [1, 0, 0], [1, 0, 0], true)];
    expect(told(rows)[0]).toBe('Adults are counted best between 0.50 m and 1.00 m, none wrong.');
  });

  test('where no rung is good it says so', () => {
    const rows = [row(0.5, [1, 60, 0], [1, 70, 0]), row(1, [1, 50, 0], [1, 90, 0], true)];
    expect(told(rows)).toEqual([
      'No height of the ladder counts adults well: at best 50 wrong per 100, at 1.00 m.',
      'No height of the ladder counts children well: at best 70 wrong per 100, at 0.50 m.',
      'No height suits all: the best for both is 0.50 m, adults 60 wrong per 100 and children 70.',
      'At your 1.00 m: adults 50 wrong per 100 and children 90.',
    ]);
  });

  test('a bar is empty only when nothing is wrong', () => {
    const table = ladderTable([row(0.5, [1, 0, 0], [1, 0, 0]), row(1, [1, 0.5, 0], [1, 0, 0])], plainPaint);
    const bars = table.split('\n').flatMap((line) => line.match(/[█·]{10}/g) ?? []);
    expect(bars).toEqual(['█·········', '··········']);
  });
});

/** A table with faults: each is found where it stands, all at once. */
import { describe, expect, test } from 'vitest';
import { compileTable } from '../../../src/counter/table/compile.js';

/** `line:column message` of each issue. */
function issuesOf(text: string): string[] {
  const { logic, table, issues } = compileTable(text, 'mine.yaml');
  if (issues.length > 0) expect([logic, table]).toEqual([null, null]);
  return issues.map(({ file, line, column, message }) => {
    expect(file).toBe('mine.yaml');
    return `${line}:${column} ${message}`;
  });
}

/** Lines 1 to 4 are the head, states begin on line 5. */
function withStates(states: string): string {
  return `format: 1\nname: mine\nbeams: [A, B]\nstart: rest\nstates:\n${states}`;
}

const WAIT = '  wait:\n    - { on: "00", go: rest }\n    - { stay: other }\n';

describe('what the rules amount to', () => {
  test('a good table has no issues', () => {
    expect(issuesOf(withStates(`  rest:\n    - { on: other, go: wait }\n${WAIT}`))).toEqual([]);
  });

  test('levels may be written without quotes', () => {
    expect(
      issuesOf(
        withStates('  rest:\n    - { on: [01, 10, 11], go: w }\n  w:\n    - { on: 00, go: rest }\n    - stay: other\n'),
      ),
    ).toEqual([]);
  });

  test('missing inputs, each state with those that can happen in it', () => {
    const text = withStates(
      '  rest:\n    - { on: "10", go: a }\n  a:\n    - { on: "00", go: rest }\n    - { on: "11", go: a }\n',
    );
    expect(issuesOf(text)).toEqual([
      '6:3 the state "rest" has no rule for 01, 11, which can happen in it',
      '8:3 the state "a" has no rule for 10, 01, which can happen in it',
    ]);
  });

  test('a timeout asks its new state about the levels as they are', () => {
    const text = withStates(
      `  rest:\n    - { on: other, go: a }\n  a:\n    - { on: "00", go: rest }\n    - { stay: other }\n    - { after_ms: 50, go: b }\n  b:\n    - { on: ["10", "01", "11"], go: wait }\n${WAIT}`,
    );
    expect(issuesOf(text)).toEqual([]);
    const timed = text.replace('{ on: "00", go: rest }', '{ on: "00", go: a }');
    expect(issuesOf(timed)).toEqual(['12:3 the state "b" has no rule for 00, which can happen in it']);
  });

  test('states that are never reached', () => {
    const text = withStates(`  rest:\n    - { on: other, go: wait }\n${WAIT}  attic:\n    - { on: other, go: rest }\n`);
    expect(issuesOf(text)).toEqual(['11:3 the state "attic" is never reached from "rest"']);
  });

  test('dead ends, alone and in a ring', () => {
    const text = withStates(
      '  rest:\n    - { on: "10", go: a }\n    - { stay: other }\n  a:\n    - { on: other, go: b }\n  b:\n    - { on: other, go: a }\n',
    );
    expect(issuesOf(text)).toEqual([
      '9:3 the state "a" is a dead end: no rules lead from it back to "rest"',
      '11:3 the state "b" is a dead end: no rules lead from it back to "rest"',
    ]);
  });

  test('a pattern with two rules: the same twice, and a contradiction', () => {
    const text = withStates(
      `  rest:\n    - { on: "10", go: wait }\n    - { on: ["10"], go: wait }\n    - { on: "1x", go: rest, tally: forward }\n    - { stay: other }\n    - { on: other, go: wait }\n${WAIT}`,
    );
    expect(issuesOf(text)).toEqual([
      '8:7 10 has a rule already, on line 7',
      '9:7 10 has two rules that contradict each other: on line 7 it is to go to "wait", here to go to "rest" and tally forward',
      '11:7 other has two rules that contradict each other: on line 10 it is to stay, here to go to "wait"',
    ]);
  });

  test('more than one timeout', () => {
    const text = withStates(
      `  rest:\n    - { on: other, go: wait }\n${WAIT}    - { after_ms: 100, go: rest }\n    - { after_ms: 200, go: rest }\n`,
    );
    const second = issuesOf(text).filter((issue) => issue.includes('after_ms'));
    expect(second).toEqual(['12:7 a state has one after_ms; this one has another on line 11']);
  });

  test('a timeout that tallies for ever while somebody stands there', () => {
    const text = withStates(
      '  rest:\n    - { stay: "00" }\n    - { on: other, go: busy }\n  busy:\n    - { on: "00", go: rest }\n    - { stay: other }\n    - { after_ms: 1000, go: rest, tally: forward }\n',
    );
    expect(issuesOf(text)).toEqual(['12:7 the timeout of "busy" tallies again and again while the beams stay at 10']);
    expect(issuesOf(text.replace(', tally: forward', ''))).toEqual([]);
  });
});

describe('keys, names and numbers', () => {
  test('everything wrong in one file is told at once', () => {
    const text = `format: 2
name: "<b>"
beams: [A, A]
strat: rest
states:
  rest:
    - { on: "100", go: a-frist }
    - { no: "10", go: a-first }
    - { on: "01", after_ms: 5, go: a-first }
    - { on: "11" }
    - { stay: "00", tally: forward }
  a-first:
    - { on: "00", go: rest, tally: forwards }
    - { on: "01", go: nowhere }
    - { after_ms: 0.5, go: rest }
    - { after_ms: 4 s, go: rest }
    - { after_ms: 2000001, go: rest }
    - { on: [], go: rest }
    - on: "10"
      go:
  b-first: []
`;
    expect(issuesOf(text)).toEqual([
      '1:1 the key "start" is missing',
      '1:9 expected 1, found "2"',
      '2:7 "<b>" cannot be a name',
      '3:12 the beam "A" is named twice',
      '4:1 unknown key "strat"',
      '7:13 expected 2 of 0, 1 and x, one for each of A, A; found "100"',
      '7:24 there is no state "a-frist"',
      '8:7 a rule has one of on, stay and after_ms; this one has none of on, stay and after_ms',
      '8:9 unknown key "no"',
      '9:7 a rule has one of on, stay and after_ms; this one has on and after_ms',
      '10:7 the rule does not say where to go',
      '11:21 a rule that stays has no "tally"',
      '13:36 expected forward or backward, found "forwards"',
      '14:23 there is no state "nowhere"',
      '15:19 expected 1 to 2000000 ms, found "0.5"',
      '16:19 expected 1 to 2000000 ms, found "4 s"',
      '17:19 expected 1 to 2000000 ms, found "2000001"',
      '18:13 expected a pattern of levels, found an empty list',
      '20:7 "go" has no value',
    ]);
  });

  test('hints name what was probably meant', () => {
    const { issues } = compileTable(
      withStates(`  rest:\n    - { on: other, go: wiat }\n${WAIT}`).replace('start', 'strat'),
      'x',
    );
    expect(issues.map(({ path, hint }) => [path, hint])).toContainEqual(['states.rest.1.go', 'did you mean "wait"?']);
    expect(issues.map(({ path, hint }) => [path, hint])).toContainEqual(['strat', 'did you mean "start"?']);
  });

  test('one slip of the pen is one issue, not a train of unreachable states', () => {
    expect(issuesOf(withStates(`  rest:\n    - { on: other, go: wiat }\n${WAIT}`))).toEqual([
      '7:24 there is no state "wiat"',
    ]);
  });

  test('a start that is no state', () => {
    const text = withStates(`  rest:\n    - { on: other, go: wait }\n${WAIT}`).replace('start: rest', 'start: home');
    expect(issuesOf(text)).toEqual(['4:8 there is no state "home"']);
  });

  test('nine beams, no beams, no states', () => {
    expect(issuesOf('format: 1\nname: x\nbeams: [a, b, c, d, e, f, g, h, i]\nstart: s\nstates: {}')).toEqual([
      '3:8 expected 1 to 8 beams, found 9',
      '5:9 expected at least one state, found none',
    ]);
    expect(issuesOf('format: 1\nname: x\nbeams: A\nstart: s\nstates: [s]')).toEqual([
      '3:8 expected a list of beam names such as [A, B], found "A"',
      '5:9 expected a map from each state to its list of rules, found a list',
    ]);
  });
});

describe('hostile files', () => {
  test('YAML that is none, with its place', () => {
    expect(issuesOf('format: 1\nname: "mine\n')[0]).toMatch(/^3:1 this is no valid YAML: Missing closing "quote/);
    expect(issuesOf('format: 1\nbeams: [A, B\nstart: rest\n')[0]).toMatch(/^3:\d+ this is no valid YAML/);
    expect(issuesOf('format: 1\n---\nformat: 1\n')[0]).toMatch(/^\d:\d this is no valid YAML/);
  });

  test.each(['', '\n\n', '# only a comment\n', '~'])('an empty file: %j', (text) => {
    expect(issuesOf(text)).toHaveLength(1);
  });

  test('a list, a word, a picture', () => {
    expect(issuesOf('- 1')).toEqual(['1:1 expected a map with format, name, beams, start and states, found a list']);
    expect(issuesOf('hello')[0]).toMatch(/^1:1 expected a map .* found "hello"/);
    expect(issuesOf('\u0089PNG\u001a\u0000\u0000')[0]).toMatch(/^1:6 expected a text file, found binary data/);
  });

  test('keys written twice', () => {
    const text = withStates(`  rest:\n    - { on: other, go: wait }\n${WAIT}  wait:\n    - { stay: other }\n`);
    expect(issuesOf(text)).toEqual(['11:3 this key stands here a second time']);
  });

  test('aliases are never expanded', () => {
    const bomb = [
      'a: &a [x, x]',
      ...'bcdefghijklmnopqrstuvwxy'
        .split('')
        .map((key, i) => `${key}: &${key} [*${String.fromCharCode(97 + i)}, *${String.fromCharCode(97 + i)}]`),
    ];
    expect(issuesOf(bomb.join('\n')).every((issue) => /unknown key|is missing/.test(issue))).toBe(true);
    const text = withStates(`  rest: &r\n    - { on: other, go: wait }\n${WAIT}`).replace('name: mine', 'name: *r');
    expect(issuesOf(text).join('\n')).toContain('2:7');
    const rules = withStates('  rest:\n    - &r { on: other, go: rest }\n    - *r\n');
    expect(issuesOf(rules)).toEqual([
      `8:7 expected a rule such as { on: "10", go: STATE }, found an alias (*r): tables don't use them`,
    ]);
  });

  test('__proto__ and constructor are no names and do no harm', () => {
    const text = withStates(
      `  rest:\n    - { on: other, go: wait, __proto__: { polluted: 1 } }\n${WAIT}  __proto__:\n    - { stay: other }\n  constructor:\n    - { stay: other }\n`,
    );
    expect(issuesOf(text)).toEqual([
      '7:30 unknown key "__proto__"',
      '11:3 "__proto__" cannot be a name',
      '13:3 "constructor" cannot be a name',
    ]);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  test('huge and deep files are refused in no time', () => {
    expect(issuesOf('x'.repeat(100_001))).toEqual(['1:1 expected at most 100000 characters, found 100001']);
    const deep = issuesOf('['.repeat(99_999));
    expect(deep.length).toBeGreaterThan(0);
    expect(deep.length).toBeLessThanOrEqual(20);
    const many = Array.from({ length: 201 }, (_, i) => `  s${i}:\n    - { stay: other }\n`).join('');
    expect(issuesOf(withStates(many))).toEqual(['6:3 expected at most 200 states, found 201']);
  });

  test('the largest tables are still checked in reasonable time', () => {
    const head = 'format: 1\nname: x\nbeams: [a, b, c, d, e, f, g, h]\nstart: s0\nstates:\n';
    const chain = Array.from(
      { length: 200 },
      (_, i) =>
        `  s${i}:\n    - { on: "${((i * 37) % 256).toString(2).padStart(8, '0')}", go: s${(i + 1) % 200} }\n    - { stay: other }\n`,
    );
    expect(issuesOf(head + chain.join(''))).toEqual([]);
    const crowded = '    - { on: ["11111111"], go: s0 }\n'.repeat(2800);
    expect(issuesOf(`${head}  s0:\n${crowded}`).length).toBeGreaterThan(2700);
  });

  test('control characters of a name come out escaped', () => {
    const [issue] = issuesOf(withStates(`  rest:\n    - { on: other, go: "\\e[2Jwait" }\n${WAIT}`));
    expect(issue).toBe('7:24 there is no state "\\u{1b}[2Jwait"');
  });
});

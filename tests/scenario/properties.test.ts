/** Whatever is done to a scenario: an answer, never a throw; and places that point at what is wrong. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseDocument, visit } from 'yaml';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { SENSOR_KINDS } from '../../src/sensors/schema.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { TABLE, VALID } from './helpers.js';
import { howMany } from '../how-many.js';

const RUNS = { seed: 20, numRuns: howMany(200, 20_000) };
/** Everything a ranger and its controller can have. */
const RANGERS = `${VALID.replace('    pair:', '    at_m: { x: 1, y: 2 }\n    facing_deg: 90\n    pair:\n      sensor: mine\n      mount: lintel\n      tilt_deg: 5')}sensors:
  mine: { profile: mine.yaml, switching: { median_of: 3 } }
  other: { kind: triangulation-ranger, linearised_by: table, table: [{ volts: 2, distance_m: 0.1 }, { volts: 1, distance_m: 0.2 }] }
controllers:
  - { name: main, turns: [[back.A], [back.B]], cycle_ms: 30, digital_pins: 9, analogue_inputs: 3 }
surroundings: { temperature_c: 18, sunlight_klx: 1 }
`;
const TEXTS = [VALID, starterScenario(), starterScenario({ sensor: 'ultrasonic-ranger' }), RANGERS];
const PROFILE = 'kind: ultrasonic-ranger\nrange_m: 3\nswitching: { margin_m: 0.2 }\n';
const readFile = (_: string, what: string) => (what === 'table' ? TABLE : PROFILE);

/** Either a design or issues, each of which can be told; never both, never neither. */
function expectAnswer(text: string, sets: readonly string[] = []): void {
  const { design, issues, cautions } = parseScenario(text, 's.yaml', { sets, readFile });
  expect(design === null).toBe(issues.length > 0);
  for (const issue of [...issues, ...cautions]) {
    const message = formatIssue(issue);
    expect(message).not.toMatch(/undefined|NaN |\[object|this is not right/);
    expect(message.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
    // What ends a line: YAML 1.2.2, section 5.4.
    const lines = text.split(/\r\n|\r|\n/).length;
    if (issue.place?.file === 's.yaml') expect(issue.place.line).toBeLessThanOrEqual(lines);
  }
}

const snippet = fc.oneof(
  fc.constantFrom(
    ': ',
    '- ',
    '\n',
    '\n  ',
    '[',
    '{',
    '}',
    '&a ',
    '*a',
    '!',
    '"',
    '\t',
    '|',
    '#',
    '?',
    ',',
    '0',
    '1e9',
    '.nan',
    'null',
    '__proto__: 1\n',
    '\u0000',
    '\u001b[',
  ),
  fc.string({ maxLength: 5, unit: 'binary' }),
);

test('each of the texts is right before anything is done to it', () => {
  for (const text of TEXTS) expect(parseScenario(text, 's.yaml', { readFile }).issues).toEqual([]);
});

test('texts with pieces cut out, put in or doubled', () => {
  const mutation = fc.record({ at: fc.double({ min: 0, max: 1, noNaN: true }), cut: fc.nat(30), put: snippet });
  fc.assert(
    fc.property(fc.constantFrom(...TEXTS), fc.array(mutation, { minLength: 1, maxLength: 4 }), (text, mutations) => {
      const mutated = mutations.reduce((t, { at, cut, put }) => {
        const i = Math.floor(at * t.length);
        return t.slice(0, i) + put + t.slice(i + cut);
      }, text);
      expectAnswer(mutated);
    }),
    RUNS,
  );
});

test('a profile with pieces cut out and put in', () => {
  const piece = fc.record({ at: fc.nat(PROFILE.length), cut: fc.nat(12), put: snippet });
  fc.assert(
    fc.property(piece, ({ at, cut, put }) => {
      const profile = PROFILE.slice(0, at) + put + PROFILE.slice(at + cut);
      const { design, issues } = parseScenario(RANGERS, 's.yaml', { readFile: () => profile });
      expect(design === null).toBe(issues.length > 0);
      for (const issue of issues) {
        expect(formatIssue(issue)).not.toMatch(/undefined|NaN |\[object|this is not right/);
        expect(['s.yaml', 'mine.yaml']).toContain(issue.place?.file);
      }
    }),
    RUNS,
  );
});

test('any beam of any kind, by --set', () => {
  const kind = fc.constantFrom(...SENSOR_KINDS, 'mine', 'other');
  const set = fc.oneof(
    kind.map((value) => `doors.*.beams.*.sensor=${value}`),
    kind.map((value) => `doors.back.beams.A.sensor=${value}`),
    kind.map((value) => `sensors.*.kind=${value}`),
    fc.constantFrom('doors.*.beams.*.mount=lintel', 'doors.*.beams.*.mount=left-jamb', 'doors.*.beams.A.tilt_deg=0'),
    fc.constantFrom('doors.*.beams.A.far_at_m=0', 'doors.*.beams.B.height_m=1', 'doors.*.beams.*=5', 'sensors.*=5'),
  );
  fc.assert(
    fc.property(fc.array(set, { maxLength: 5 }), (sets) => expectAnswer(RANGERS, sets)),
    RUNS,
  );
});

/** Offsets of all scalar values of a text. */
function scalars(text: string): [number, number][] {
  const found: [number, number][] = [];
  visit(parseDocument(text), {
    Scalar: (key, node) => {
      if (key !== 'key' && node.range) found.push([node.range[0], node.range[1]]);
    },
  });
  return found;
}

test('a value replaced by anything', () => {
  const value = fc.oneof(
    fc.json({ maxDepth: 2 }),
    fc.integer().map(String),
    fc.double().map(String),
    snippet.map((s) => JSON.stringify(s)),
  );
  fc.assert(
    fc.property(fc.constantFrom(...TEXTS), fc.double({ min: 0, max: 0.999, noNaN: true }), value, (text, at, put) => {
      const all = scalars(text);
      const [from, to] = all[Math.floor(at * all.length)]!;
      expectAnswer(text.slice(0, from) + put + text.slice(to));
    }),
    RUNS,
  );
});

test('a value of the wrong type is reported exactly where it stands', () => {
  for (const text of TEXTS)
    for (const [from, to] of scalars(text)) {
      const before = text.slice(0, from);
      const { issues } = parseScenario(`${before}{ zzz: 1 }${text.slice(to)}`, 's.yaml', { readFile });
      const places = issues.map(({ place }) => `${place?.line}:${place?.column}`);
      expect(places).toContain(`${before.split('\n').length}:${from - before.lastIndexOf('\n')}`);
    }
});

test('arbitrary --set texts', () => {
  const key = fc.constantFrom(
    'doors',
    'back',
    '*',
    'beams',
    'A',
    'at_m',
    'rooms',
    '1',
    'traffic',
    'mix',
    'name',
    'logics',
    'tables',
    'walkers',
    'sensors',
    'mine',
    'kind',
    'sensor',
    'switching',
    'profile',
    'controllers',
    '__proto__',
    '',
    'x',
  );
  const path = fc.array(key, { maxLength: 6 }).map((keys) => keys.join('.'));
  fc.assert(
    fc.property(fc.constantFrom(VALID, RANGERS), path, fc.oneof(snippet, fc.json({ maxDepth: 1 })), (text, p, value) =>
      expectAnswer(text, [`${p}=${value}`]),
    ),
    RUNS,
  );
});

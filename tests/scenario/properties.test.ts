/** Whatever is done to a scenario: an answer, never a throw; and places that point at what is wrong. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseDocument, visit } from 'yaml';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { TABLE, VALID } from './helpers.js';

const RUNS = { seed: 20, numRuns: process.env.JAMBEAM_LONG ? 20_000 : 200 };
const TEXTS = [VALID, starterScenario()];

/** Either a design or issues, each of which can be told; never both, never neither. */
function expectAnswer(text: string, sets: readonly string[] = []): void {
  const { design, issues, cautions } = parseScenario(text, 's.yaml', { sets, readFile: () => TABLE });
  expect(design === null).toBe(issues.length > 0);
  for (const issue of [...issues, ...cautions]) {
    const message = formatIssue(issue);
    expect(message).not.toMatch(/undefined|NaN |\[object|this is not right/);
    expect(message.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
    const lines = text.split('\n').length;
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
      const { issues } = parseScenario(`${before}{ zzz: 1 }${text.slice(to)}`, 's.yaml', { readFile: () => TABLE });
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
    '__proto__',
    '',
    'x',
  );
  const path = fc.array(key, { maxLength: 6 }).map((keys) => keys.join('.'));
  fc.assert(
    fc.property(path, fc.oneof(snippet, fc.json({ maxDepth: 1 })), (p, value) =>
      expectAnswer(VALID, [`${p}=${value}`]),
    ),
    RUNS,
  );
});

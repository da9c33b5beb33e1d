/** One rule of a table: `on … go …`, `stay …` or `after_ms … go …`. */
import { type Node, isScalar } from 'yaml';
import type { Direction } from '../logic.js';
import { NONE } from '../steps.js';
import { nearest } from '../../engine/nearest.js';
import { quote } from '../../engine/printable.js';
import { AFTER_MS, MAX_TALLIES, type Patterns, type TableRule } from './table.js';
import { type Entry, type YamlText, describe, join } from './yaml-text.js';

export interface RuleContext {
  readonly beams: readonly string[];
  readonly states: readonly string[];
  /** Set to false when a rule leads to a state that nobody knows. */
  connected: boolean;
}

const RULE_KEYS = ['on', 'stay', 'after_ms', 'go', 'tally'] as const;
const TRIGGERS = ['on', 'stay', 'after_ms'] as const;
const FORMS = 'write `{ on: "10", go: STATE }`, `{ stay: "10" }` or `{ after_ms: 4000, go: STATE }`';
const DIRECTIONS = ['forward', 'backward'] as const;

/** Null when it can't be used; why is in the issues. */
export function readRule(yaml: YamlText, node: Node, path: string, context: RuleContext): TableRule | null {
  const found = yaml.knownEntries(node, path, 'a rule such as { on: "10", go: STATE }', RULE_KEYS);
  if (found === null) return null;
  const place = yaml.placeOf(node);
  const triggers = TRIGGERS.filter((key) => found.has(key));
  const [trigger] = triggers;
  if (trigger === undefined || triggers.length > 1) {
    const what = triggers.length === 0 ? 'none of on, stay and after_ms' : triggers.join(' and ');
    yaml.issue(node, path, `a rule has one of on, stay and after_ms; this one has ${what}`, FORMS);
    for (const key of triggers) if (key !== 'after_ms') readPatterns(yaml, found.get(key), join(path, key), context);
    return null;
  }
  if (trigger === 'stay') {
    for (const key of ['go', 'tally'] as const) {
      const extra = found.get(key);
      if (extra) yaml.issue(extra.keyNode, join(path, key), `a rule that stays has no "${key}"`, FORMS);
    }
    const patterns = readPatterns(yaml, found.get('stay'), join(path, 'stay'), context);
    return patterns && { kind: 'stay', patterns, place };
  }

  const go = readGo(yaml, node, found.get('go'), path, context);
  const tallies = readTallies(yaml, found.get('tally'), join(path, 'tally'));
  if (trigger === 'after_ms') {
    const after_ms = readAfter(yaml, found.get('after_ms'), join(path, 'after_ms'));
    return go !== null && after_ms !== null && tallies ? { kind: 'after', after_ms, go, tallies, place } : null;
  }
  const patterns = readPatterns(yaml, found.get('on'), join(path, 'on'), context);
  return go !== null && patterns && tallies ? { kind: 'on', patterns, go, tallies, place } : null;
}

function readGo(yaml: YamlText, rule: Node, go: Entry | undefined, path: string, context: RuleContext): string | null {
  if (go?.value) return resolveState(yaml, go.value, join(path, 'go'), context);
  context.connected = false;
  if (!yaml.issues.some((issue) => issue.path === join(path, 'go')))
    yaml.issue(rule, path, 'the rule does not say where to go', 'add `go: STATE`, or write `{ stay: … }` to stay');
  return null;
}

function readPatterns(yaml: YamlText, entry: Entry | undefined, path: string, { beams }: RuleContext): Patterns | null {
  if (!entry?.value) return null;
  const single = isScalar(entry.value) && entry.value.value === 'other';
  if (single) return 'other';
  const nodes = yaml.itemsOrOne(entry.value);
  if (nodes.length === 0) {
    yaml.issue(entry.value, path, 'expected a pattern of levels, found an empty list');
    return null;
  }
  const patterns = nodes.map((node) => readPattern(yaml, node, path, beams));
  return patterns.every((pattern) => pattern !== null) ? patterns : null;
}

function readPattern(yaml: YamlText, node: Node, path: string, beams: readonly string[]): string | null {
  const text = yaml.text(node, path, 'a pattern of levels');
  if (text === null) return null;
  if (text.length === beams.length && /^[01xX]+$/.test(text)) return text;
  yaml.issue(
    node,
    path,
    `expected ${beams.length} of 0, 1 and x, one for each of ${beams.join(', ')}; found ${quote(text)}`,
    text === 'other' ? '`other` stands alone, not in a list' : '0 is clear, 1 is broken, x is either',
  );
  return null;
}

function readTallies(yaml: YamlText, entry: Entry | undefined, path: string): readonly Direction[] | null {
  if (!entry?.value) return NONE;
  const nodes = yaml.itemsOrOne(entry.value);
  if (nodes.length < 1 || nodes.length > MAX_TALLIES) {
    yaml.issue(entry.value, path, `expected 1 to ${MAX_TALLIES} tallies, found ${nodes.length}`);
    return null;
  }
  const tallies = nodes.map((node) => readDirection(yaml, node, path));
  return tallies.every((tally) => tally !== null) ? Object.freeze(tallies) : null;
}

function readDirection(yaml: YamlText, node: Node, path: string): Direction | null {
  const text = yaml.text(node, path, 'forward or backward');
  if (text === null) return null;
  const direction = DIRECTIONS.find((known) => known === text);
  if (direction) return direction;
  const meant = nearest(text, DIRECTIONS);
  const hint = meant ? `did you mean "${meant}"?` : 'forward leads to the room a door names as `to`';
  yaml.issue(node, path, `expected forward or backward, found ${quote(text)}`, hint);
  return null;
}

function readAfter(yaml: YamlText, entry: Entry | undefined, path: string): number | null {
  const node = entry?.value;
  if (!node) return null;
  const value = isScalar(node) ? node.value : null;
  if (typeof value !== 'number' || !(value >= AFTER_MS.min && value <= AFTER_MS.max)) {
    const range = `${AFTER_MS.min} to ${AFTER_MS.max} ms`;
    const hint = typeof value === 'string' ? 'a number without a unit: `after_ms: 4000`' : undefined;
    yaml.issue(node, path, `expected ${range}, found ${describe(node)}`, hint);
    return null;
  }
  return value;
}

/**
 * The state a node names. One that was nearly named is reported and then taken as meant, so that one slip of the
 * pen doesn't bring a train of unreachable states with it.
 */
export function resolveState(yaml: YamlText, node: Node, path: string, context: RuleContext): string | null {
  const text = yaml.text(node, path, "a state's name");
  if (text === null) {
    context.connected = false;
    return null;
  }
  if (context.states.includes(text)) return text;
  const meant = nearest(text, context.states);
  yaml.issue(
    node,
    path,
    `there is no state ${quote(text)}`,
    meant ? `did you mean "${meant}"?` : `states: ${context.states.slice(0, 12).join(', ')}`,
  );
  if (meant === undefined) context.connected = false;
  return meant ?? null;
}

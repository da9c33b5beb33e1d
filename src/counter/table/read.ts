/** From a table's YAML to plain data: keys, types, ranges and names; what the rules amount to is check.ts's matter. */
import type { Node } from 'yaml';
import { name as nameSchema } from '../../engine/quantity.js';
import { MAX_BEAMS } from '../levels.js';
import { quote } from '../../engine/printable.js';
import { type RuleContext, readRule, resolveState } from './read-rule.js';
import { MAX_STATES, TABLE_FORMAT, type Table, type TableRule, type TableState } from './table.js';
import { type Entry, type YamlText, join } from './yaml-text.js';

const KEYS = ['format', 'name', 'beams', 'start', 'states', 'defeated_by'] as const;
const SHAPE = 'a map with format, name, beams, start and states';
const anyName = nameSchema('a name');
/** Names that would be properties of every object; refused although maps here would bear them. */
const RESERVED = new Set(['constructor', 'prototype']);

export interface ReadTable {
  readonly table: Table;
  /** Names of states whose rules couldn't all be read: nothing is said of what they lack. */
  readonly incomplete: ReadonlySet<string>;
  /** False when a `go` or `start` leads nowhere: nothing is said of reachability. */
  readonly connected: boolean;
}

/** Null when too little could be read to say more; issues are in `yaml`. */
export function readTable(yaml: YamlText): ReadTable | null {
  if (yaml.root === null) return null;
  const found = yaml.knownEntries(yaml.root, '', SHAPE, KEYS);
  if (found === null) return null;
  const top = (key: (typeof KEYS)[number], hint?: string): Node | null => {
    const value = found.get(key)?.value ?? null;
    if (value === null && hint !== undefined && !yaml.issues.some((issue) => issue.path === key))
      yaml.issueAt({ line: 1, column: 1 }, key, `the key "${key}" is missing`, hint);
    return value;
  };

  readFormat(yaml, top('format', `\`format: ${TABLE_FORMAT}\``));
  const nameNode = top('name', 'what the table is called in results');
  const name = nameNode && readName(yaml, nameNode, 'name', 'a name');
  const beamsNode = top('beams', '`beams: [A, B]`');
  const beams = beamsNode && readBeams(yaml, beamsNode);
  const defeatedNode = top('defeated_by');
  const defeated_by = defeatedNode && yaml.text(defeatedNode, 'defeated_by', 'a sentence');
  const statesNode = top('states', 'a map from each state to its list of rules');
  const stateEntries = statesNode && readStateNames(yaml, statesNode);
  const startNode = top('start', 'the state the table begins in, with all beams clear');
  if (!beams || !stateEntries || stateEntries.length === 0) return null;

  const context: RuleContext = { beams, states: stateEntries.map((entry) => entry.key), connected: true };
  const start = startNode && resolveState(yaml, startNode, 'start', context);
  const incomplete = new Set<string>();
  const states = stateEntries.map((entry) => readState(yaml, entry, context, incomplete));
  if (!start) context.connected = false;
  return {
    table: {
      name: name ?? 'table',
      beams,
      start: start ?? context.states[0] ?? '',
      states,
      defeated_by: defeated_by ?? null,
    },
    incomplete,
    connected: context.connected,
  };
}

function readFormat(yaml: YamlText, node: Node | null): void {
  if (node === null) return;
  const text = yaml.text(node, 'format', String(TABLE_FORMAT));
  if (text !== null && text !== String(TABLE_FORMAT))
    yaml.issue(node, 'format', `expected ${TABLE_FORMAT}, found ${quote(text)}`);
}

function readName(yaml: YamlText, node: Node, path: string, expected: string): string | null {
  const text = yaml.text(node, path, expected);
  if (text === null) return null;
  if (anyName.safeParse(text).success && !RESERVED.has(text)) return text;
  yaml.issue(
    node,
    path,
    `${quote(text)} cannot be a name`,
    'up to 40 letters, digits, spaces, - and _, beginning with a letter or digit',
  );
  return null;
}

function readBeams(yaml: YamlText, node: Node): string[] | null {
  const items = yaml.items(node, 'beams', 'a list of beam names such as [A, B]');
  if (items === null) return null;
  if (items.length < 1 || items.length > MAX_BEAMS) {
    yaml.issue(node, 'beams', `expected 1 to ${MAX_BEAMS} beams, found ${items.length}`);
    return null;
  }
  const names: string[] = [];
  for (const [i, item] of items.entries()) {
    const path = join('beams', i + 1);
    const text = readName(yaml, item, path, 'a beam name');
    if (text !== null && names.includes(text)) yaml.issue(item, path, `the beam ${quote(text)} is named twice`);
    names.push(text ?? '?');
  }
  return names;
}

function readStateNames(yaml: YamlText, node: Node): Entry[] | null {
  const entries = yaml.entries(node, 'states', 'a map from each state to its list of rules');
  if (entries === null) return null;
  if (entries.length === 0) yaml.issue(node, 'states', 'expected at least one state, found none');
  if (entries.length > MAX_STATES) {
    yaml.issue(node, 'states', `expected at most ${MAX_STATES} states, found ${entries.length}`);
    return null;
  }
  return entries.filter((entry) => readName(yaml, entry.keyNode, join('states', entry.key), 'a state name') !== null);
}

function readState(yaml: YamlText, entry: Entry, context: RuleContext, incomplete: Set<string>): TableState {
  const path = join('states', entry.key);
  const rules: TableRule[] = [];
  const state = { name: entry.key, rules, place: yaml.placeOf(entry.keyNode) };
  const items = entry.value && yaml.items(entry.value, path, 'a list of rules');
  if (!items) {
    if (!entry.value) yaml.issue(entry.keyNode, path, `the state ${quote(entry.key)} has no rules`);
    incomplete.add(entry.key);
    return state;
  }
  for (const [i, item] of items.entries()) {
    const rule = readRule(yaml, item, join(path, i + 1), context);
    if (rule === null) incomplete.add(entry.key);
    else rules.push(rule);
  }
  return state;
}

/**
 * Reads a table's YAML without trusting it: nodes are walked where they stand and never turned into objects, so
 * aliases are never expanded and no key of the user's becomes a property of anything.
 */
import {
  type Document,
  LineCounter,
  type Node,
  type YAMLError,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  parseDocument,
} from 'yaml';
import { nearest } from '../../engine/nearest.js';
import {
  ODDITY_WORDS,
  oddCharacter,
  placeIn,
  plainLines,
  tooDeepAt,
  withoutTraces,
} from '../../engine/outside-text.js';
import { quote } from '../../engine/printable.js';
import type { TableIssue } from './issue.js';
import { MAX_TEXT, type TextPlace } from './table.js';

const MAX_SYNTAX_ISSUES = 20;

/** A key of a map with its value; `value` is null where nothing follows the colon. */
export interface Entry {
  readonly key: string;
  readonly keyNode: Node;
  readonly value: Node | null;
}

/** One text being read: gathers issues, knows places. */
export class YamlText {
  readonly issues: TableIssue[] = [];
  /** Null when the text is no YAML at all. */
  readonly root: Node | null;
  private readonly lines = new LineCounter();

  constructor(
    text: string,
    private readonly file: string,
  ) {
    const document = this.parse(text);
    this.root = (document?.contents as Node | null | undefined) ?? null;
    if (document && this.root === null && this.issues.length === 0)
      this.issueAt({ line: 1, column: 1 }, '', 'the file is empty', 'a table begins with `format: 1`');
  }

  private parse(rawText: string): Document | null {
    const text = plainLines(rawText);
    if (text.length > MAX_TEXT) {
      this.issueAt({ line: 1, column: 1 }, '', `expected at most ${MAX_TEXT} characters, found ${text.length}`);
      return null;
    }
    const odd = oddCharacter(text);
    if (odd) {
      const { text: words, hint } = ODDITY_WORDS[odd.why];
      this.issueAt(placeIn(text, odd.offset), '', words, hint);
      return null;
    }
    const deep = tooDeepAt(text);
    if (deep !== undefined) {
      this.issueAt(placeIn(text, deep), '', 'this is no valid YAML: nested too deeply');
      return null;
    }
    try {
      const document = withoutTraces(() =>
        parseDocument(text, { lineCounter: this.lines, prettyErrors: false, version: '1.2' }),
      );
      this.reportSyntax(document.errors);
      const readable = document.errors.every((error) => error.code === 'DUPLICATE_KEY');
      return readable ? (document as unknown as Document) : null;
    } catch {
      this.issueAt({ line: 1, column: 1 }, '', 'this is no valid YAML: nested too deeply');
      return null;
    }
  }

  /** The first complaint at each place; what follows from it at the same place is noise. */
  private reportSyntax(errors: readonly YAMLError[]): void {
    const firsts = new Map<number, YAMLError>();
    for (const error of errors) if (!firsts.has(error.pos[0])) firsts.set(error.pos[0], error);
    for (const [offset, error] of [...firsts].slice(0, MAX_SYNTAX_ISSUES)) {
      // The parser recurses, and gives back what the engine says when a text of brackets exhausts its stack.
      const tooDeep = error.message.includes('call stack');
      const what = tooDeep ? 'nested too deeply' : (error.message.split('\n')[0] ?? '');
      const repeated = error.code === 'DUPLICATE_KEY';
      this.issueAt(
        this.placeAt(offset),
        '',
        repeated ? 'this key stands here a second time' : `this is no valid YAML: ${what}`,
      );
      if (tooDeep) return;
    }
  }

  placeAt(offset: number): TextPlace {
    const { line, col } = this.lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  }

  placeOf(node: Node): TextPlace {
    return this.placeAt(node.range?.[0] ?? 0);
  }

  issueAt(place: TextPlace, path: string, message: string, hint?: string): void {
    this.issues.push({ file: this.file, line: place.line, column: place.column, path, message, hint });
  }

  issue(node: Node, path: string, message: string, hint?: string): void {
    this.issueAt(this.placeOf(node), path, message, hint);
  }

  /** Text of a scalar as written, so that `01` unquoted stays `01`; null (and an issue) for anything else. */
  text(node: Node, path: string, expected: string): string | null {
    if (isScalar(node) && node.value !== null) {
      return typeof node.value === 'string' ? node.value : (node.source ?? '');
    }
    this.issue(node, path, `expected ${expected}, found ${describe(node)}`);
    return null;
  }

  /** Items of a list; one thing alone counts as a list of itself. */
  itemsOrOne(node: Node): Node[] {
    return isSeq(node) ? (node.items as Node[]) : [node];
  }

  items(node: Node, path: string, expected: string): Node[] | null {
    if (isSeq(node)) return node.items as Node[];
    this.issue(node, path, `expected ${expected}, found ${describe(node)}`);
    return null;
  }

  /** Entries of a map in order; null (and an issue) if it is none. Repeated keys were found by the parser. */
  entries(node: Node, path: string, expected: string): Entry[] | null {
    if (!isMap(node)) {
      this.issue(node, path, `expected ${expected}, found ${describe(node)}`);
      return null;
    }
    const entries = new Map<string, Entry>();
    for (const pair of node.items) {
      const keyNode = pair.key as Node;
      const key = this.text(keyNode, path, 'a key');
      if (key !== null && !entries.has(key)) entries.set(key, { key, keyNode, value: pair.value as Node | null });
    }
    return [...entries.values()];
  }

  /** Like {@link entries} by key, with unknown keys and keys without a value reported and left out. */
  knownEntries(node: Node, path: string, expected: string, known: readonly string[]): Map<string, Entry> | null {
    const entries = this.entries(node, path, expected);
    if (entries === null) return null;
    const found = new Map<string, Entry>();
    for (const entry of entries) {
      const at = join(path, entry.key);
      const { value } = entry;
      if (!known.includes(entry.key)) {
        const meant = nearest(entry.key, known);
        this.issue(
          entry.keyNode,
          at,
          `unknown key ${quote(entry.key)}`,
          meant ? `did you mean "${meant}"?` : `known keys: ${known.join(', ')}`,
        );
      } else if (value === null || (isScalar(value) && value.value === null)) {
        this.issue(entry.keyNode, at, `"${entry.key}" has no value`);
      } else found.set(entry.key, entry);
    }
    return found;
  }
}

/** What a node is, in words. */
export function describe(node: Node | null): string {
  if (isAlias(node)) return `an alias (*${node.source.slice(0, 40)}): tables don't use them`;
  if (isMap(node)) return 'a map';
  if (isSeq(node)) return 'a list';
  if (isScalar(node) && node.value !== null) return quote(node.source ?? '');
  return 'nothing';
}

export function join(path: string, key: string | number): string {
  const step = typeof key === 'number' ? String(key) : plain(key);
  return path === '' ? step : `${path}.${step}`;
}

function plain(key: string): string {
  return /^[\p{L}\p{N} _-]{1,40}$/u.test(key) ? key : quote(key);
}

/** From YAML nodes to plain values, with a mark for the place of every key and value. Bounded, whatever comes. */
import { type Alias, type Node, type Pair, type Scalar, type YAMLMap, isAlias, isMap, isScalar, isSeq } from 'yaml';
import { HIDING } from '../engine/printable.js';
import type { KeyPath, ShapeProblem } from './issue.js';

export const MAX_DEPTH = 40;
/** Nodes that aliases may add by being expanded. */
const MAX_ALIASED = 10_000;
const UNSAFE = new RegExp(`[${HIDING}]`);
const FORBIDDEN_KEYS: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

/** Whether a text is fit to be printed on one line: it holds no control character and no mark that turns its direction. */
export function isOneLine(text: string): boolean {
  return !UNSAFE.test(text);
}

/** Where a value and its key begin (offsets into the text), and its children. */
export interface Mark {
  readonly value: number;
  readonly key: number | undefined;
  readonly children: Map<string | number, Mark>;
}

export interface FoundAt {
  readonly offset: number;
  readonly path: KeyPath;
  readonly problem: ShapeProblem;
}

export class YamlReader {
  /** Problems that leave the rest readable. */
  readonly found: FoundAt[] = [];
  /** The problem that ended the reading. */
  excess: FoundAt | undefined;
  private readonly anchors = new Map<string, Node>();
  private aliased = 0;
  private insideAlias = 0;

  /** @param anyText whether values may hold line breaks and such, as the tables in a design.json do */
  constructor(
    private readonly lineAt: (offset: number) => number,
    private readonly anyText: boolean,
  ) {}

  /** The node's value. `key` is the offset of the key it stands under. */
  read(node: unknown, path: KeyPath, key: number | undefined): { value: unknown; mark: Mark } {
    const start = startOf(node) ?? key ?? 0;
    const mark: Mark = { value: start, key, children: new Map() };
    if (this.excess) return { value: null, mark };
    if (path.length > MAX_DEPTH) return this.stop('nesting', MAX_DEPTH, start, path, mark);
    if (this.insideAlias > 0 && ++this.aliased > MAX_ALIASED)
      return this.stop('aliases', MAX_ALIASED, start, path, mark);
    if (isAlias(node)) return this.readAlias(node, path, key, start, mark);
    if (isScalar(node) || isMap(node) || isSeq(node)) if (node.anchor) this.anchors.set(node.anchor, node);
    if (isMap(node)) return { value: this.readMap(node, path, mark), mark };
    if (isSeq(node))
      return { value: node.items.map((item, i) => this.readChild(item, path, i, undefined, mark)), mark };
    const scalar = isScalar(node) ? node : undefined;
    // An empty value has no place of its own worth pointing at: its key has.
    if (scalar?.value === null && !scalar.source) return { value: null, mark: { ...mark, value: key ?? start } };
    const value: unknown = scalar?.value ?? null;
    // Written as an escape ("\\e[31m") a control character passes YAML; it shall not reach a terminal or a page.
    if (typeof value === 'string' && !this.anyText && !isOneLine(value))
      this.found.push({ offset: start, path, problem: { code: 'not_text', why: 'control character' } });
    return { value, mark };
  }

  private readAlias(node: Alias, path: KeyPath, key: number | undefined, start: number, mark: Mark) {
    const target = this.anchors.get(node.source);
    if (!target) {
      this.found.push({ offset: start, path, problem: { code: 'syntax', detail: 'alias', yaml: 'UNRESOLVED_ALIAS' } });
      return { value: null, mark };
    }
    this.insideAlias++;
    const read = this.read(target, path, key);
    this.insideAlias--;
    return { value: read.value, mark: { ...read.mark, value: start } };
  }

  private readMap(node: YAMLMap, path: KeyPath, mark: Mark): Record<string, unknown> {
    const value: Record<string, unknown> = {};
    const seen = new Map<string, number>();
    for (const pair of node.items as Pair<unknown, unknown>[]) {
      const offset = startOf(pair.key) ?? mark.value;
      if (!isScalar(pair.key) || pair.key.value === null) {
        this.found.push({ offset, path, problem: { code: 'syntax', detail: 'key', yaml: 'KEY_NOT_TEXT' } });
        continue;
      }
      const key = keyText(pair.key);
      const first = seen.get(key);
      if (FORBIDDEN_KEYS.has(key)) this.found.push({ offset, path, problem: { code: 'forbidden_key', key } });
      else if (first !== undefined) {
        const problem = { code: 'duplicate_key', key, first_line: this.lineAt(first) } as const;
        this.found.push({ offset, path: [...path, key], problem });
      } else {
        seen.set(key, offset);
        value[key] = this.readChild(pair.value, path, key, offset, mark);
      }
    }
    return value;
  }

  private readChild(node: unknown, path: KeyPath, segment: string | number, key: number | undefined, parent: Mark) {
    const { value, mark } = this.read(node, [...path, segment], key);
    parent.children.set(segment, mark);
    return value;
  }

  private stop(what: 'nesting' | 'aliases', max: number, offset: number, path: KeyPath, mark: Mark) {
    this.excess = { offset, path: path.slice(0, 3), problem: { code: 'too_large', what, max } };
    return { value: null, mark };
  }
}

/** Numbers keep the digits they were written with: `007` and `7` are different names. */
function keyText(key: Scalar): string {
  return typeof key.value === 'string' ? key.value : (key.source ?? String(key.value));
}

function startOf(node: unknown): number | undefined {
  return isScalar(node) || isMap(node) || isSeq(node) || isAlias(node) ? node.range?.[0] : undefined;
}

/**
 * A YAML text as plain values, with the place of every key and value.
 *
 * The text comes from outside and is treated as hostile: size, nesting and alias expansion are bounded, keys that
 * reach into JavaScript objects are refused, and nothing is thrown.
 */
import { type Document, LineCounter, isScalar, parseDocument, visit } from 'yaml';
import { oddCharacter, placeIn, plainLines, tooDeepAt, withoutTraces } from '../engine/outside-text.js';
import type { Issue, KeyPath, Place, ShapeProblem } from './issue.js';
import { showPath } from './key-path.js';
import { MAX_DEPTH, type Mark, YamlReader } from './yaml-reader.js';

const MAX_CHARACTERS = 1_048_576;
/** A broken text gives follow-up errors; the first few say it. */
const MAX_SYNTAX_ERRORS = 5;

export interface YamlSource {
  readonly file: string;
  readonly value: unknown;
  /** Place of the key or value at `path`; of the deepest part of the path that exists when it leads nowhere. */
  place(path: KeyPath, at: 'key' | 'value'): Place;
}

/**
 * Reads one YAML document. `source` is null when nothing can be made of the text; `issues` may be there beside a
 * source (duplicate keys, say), so that all problems of a text can be told at once.
 *
 * @param options.maxCharacters longest text that is read, 1 MiB by default
 * @param options.anyText whether values may hold line breaks and control characters
 */
export function readYaml(
  rawText: string,
  file: string,
  { maxCharacters = MAX_CHARACTERS, anyText = false } = {},
): { source: YamlSource | null; issues: Issue[] } {
  const text = plainLines(rawText);
  const lines = new LineCounter();
  const placeAt = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { file, line: Math.max(1, line), column: Math.max(1, col) };
  };
  const top: Place = { file, line: 1, column: 1 };
  const refuse = (problem: ShapeProblem, place: Place = top) => ({
    source: null,
    issues: [{ place, path: '', problem }],
  });

  if (text.length > maxCharacters) return refuse({ code: 'too_large', what: 'characters', max: maxCharacters });
  const odd = oddCharacter(text);
  if (odd) return refuse({ code: 'not_text', why: odd.why }, { file, ...placeIn(text, odd.offset) });
  const deep = tooDeepAt(text);
  if (deep !== undefined)
    return refuse({ code: 'too_large', what: 'nesting', max: MAX_DEPTH }, { file, ...placeIn(text, deep) });
  const document = parse(text, lines);
  if (!document) return refuse({ code: 'too_large', what: 'nesting', max: MAX_DEPTH });
  const syntax = syntaxIssues(document, placeAt);
  if (syntax.length > 0) return { source: null, issues: syntax };
  const contents = document.contents;
  if (contents === null || (isScalar(contents) && contents.value === null)) return refuse({ code: 'empty_file' });

  const reader = new YamlReader((offset) => placeAt(offset).line, anyText);
  const { value, mark } = reader.read(contents, [], undefined);
  if (reader.excess) return refuse(reader.excess.problem, placeAt(reader.excess.offset));
  return {
    source: { file, value, place: (path, at) => placeAt(offsetOf(mark, path, at)) },
    issues: reader.found.map(({ offset, path, problem }) => ({
      place: placeAt(offset),
      path: showPath(value, path),
      problem,
    })),
  };
}

function parse(text: string, lineCounter: LineCounter): Document.Parsed | undefined {
  try {
    return withoutTraces(() =>
      parseDocument(text, {
        lineCounter,
        prettyErrors: false,
        // The library compares every key with every other; the reader finds duplicates in one pass.
        uniqueKeys: false,
        logLevel: 'error',
        schema: 'core',
        resolveKnownTags: false,
      }),
    );
  } catch {
    return undefined;
  }
}

function syntaxIssues(document: Document.Parsed, placeAt: (offset: number) => Place): Issue[] {
  const seen = new Set<number>();
  const issues: Issue[] = [];
  for (const { code, message, pos } of [...document.errors, ...document.warnings]) {
    const place = placeAt(/Missing closing/.test(message) ? openingQuote(document, pos[0]) : pos[0]);
    // One error a line: the rest of a line that is broken is broken too.
    if (seen.has(place.line) || issues.length === MAX_SYNTAX_ERRORS) continue;
    seen.add(place.line);
    if (code === 'RESOURCE_EXHAUSTION')
      return [{ place, path: '', problem: { code: 'too_large', what: 'nesting', max: MAX_DEPTH } }];
    issues.push({ place, path: '', problem: { code: 'syntax', detail: message, yaml: code } });
  }
  return issues;
}

/** A quote that is never closed is missed at the end of the text; what helps is where it opens. */
function openingQuote(document: Document.Parsed, end: number): number {
  let opening = end;
  visit(document, {
    Scalar: (_, { range, type }) => {
      if (range && range[0] < end && (type === 'QUOTE_DOUBLE' || type === 'QUOTE_SINGLE')) opening = range[0];
    },
  });
  return opening;
}

/** Offset of the key or value at `path`, as far as the path leads. A list item has no key: its value stands in. */
function offsetOf(root: Mark, path: KeyPath, at: 'key' | 'value'): number {
  let mark = root;
  for (const segment of path) {
    const next = mark.children.get(segment);
    if (!next) return mark.key ?? mark.value;
    mark = next;
  }
  return at === 'key' ? (mark.key ?? mark.value) : mark.value;
}

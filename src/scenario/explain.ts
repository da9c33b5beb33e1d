/** The only place where an issue becomes words. What a user wrote is echoed short and without control characters. */
import { ODDITY_WORDS } from '../engine/outside-text.js';
import { explainCross } from './explain-cross.js';
import type { Explanation } from './explanation.js';
import type { Issue, SetProblem, ShapeProblem } from './issue.js';
import { printable, quote, short } from '../engine/printable.js';
import { SENSOR_KINDS } from '../sensors/schema.js';
import { choice, found, list, range, typeWords, unitWords } from './words.js';

/** The issue in words, without its place. */
export function explain(issue: Issue): Explanation {
  const { problem } = issue;
  switch (problem.code) {
    case 'other':
    case 'table_error':
      return withHint(printable(problem.message, 300), problem.hint && printable(problem.hint, 300));
    case 'not_an_assignment':
    case 'profile_set':
    case 'unknown_path':
      return explainSet(problem);
    default:
      return explainShape(problem as ShapeProblem, issue) ?? explainCross(problem);
  }
}

/** `file:line:column: path: text`, and a line `  hint: …` where there is one. No line break at the end. */
export function formatIssue(issue: Issue): string {
  const { text, hint } = explain(issue);
  const { place } = issue;
  const where = place ? `${printable(place.file, 200)}:${place.line}:${place.column}: ` : '';
  const path = issue.path === '' ? '' : `${printable(issue.path, 120)}: `;
  return `${where}${path}${text}${hint ? `\n  hint: ${hint}` : ''}`;
}

function withHint(text: string, hint: string | undefined): Explanation {
  return hint ? { text, hint } : { text };
}

function explainShape(problem: ShapeProblem, { path }: Issue): Explanation | undefined {
  switch (problem.code) {
    case 'syntax':
      return explainSyntax(problem.detail, problem.yaml);
    case 'not_text':
      return ODDITY_WORDS[problem.why];
    case 'too_large':
      return explainTooLarge(problem);
    case 'empty_file':
      return { text: 'the file is empty', hint: '`jambeam new DIR` writes a scenario to start from' };
    case 'and_more':
      return { text: `and ${problem.count} more ${problem.count === 1 ? 'problem' : 'problems'}` };
    case 'forbidden_key':
      return { text: `the key ${quote(problem.key)} is not allowed`, hint: 'choose another name' };
    case 'duplicate_key':
      return {
        text: `the key ${quote(problem.key)} is here for a second time`,
        hint: `it is in line ${problem.first_line} already; keep one of them`,
      };
    case 'unknown_key':
      return withHint(`unknown key ${quote(problem.key)}`, unknownKeyHint(problem));
    case 'missing_key': {
      const unit = unitWords(problem.unit);
      if (problem.choices) return { text: `the key ${quote(problem.key)} is missing`, hint: choice(problem.choices) };
      return withHint(
        `the key ${quote(problem.key)} is missing`,
        problem.description && `${problem.description}${unit && !unit.startsWith('per ') ? ` In ${unit}.` : ''}`,
      );
    }
    case 'wrong_type':
      return explainType(problem);
    case 'out_of_range':
      return { text: `expected ${range(problem)}, found ${short(problem.found)}` };
    case 'length':
      return { text: `expected ${lengthWords(problem)}, found ${problem.found === 0 ? 'none' : problem.found}` };
    case 'bad_name':
      return {
        text: `${quote(problem.found)} can't be a name`,
        hint: 'up to 40 letters, digits, spaces, - and _, beginning with a letter or digit',
      };
    case 'bad_clock':
      return {
        text: `expected a clock time from 00:00 to 23:59, found ${quote(problem.found)}`,
        hint: 'in quotes, two digits each for hour and minute: "07:30"',
      };
    case 'not_one_of':
      return withHint(`expected ${choice(problem.choices)}, found ${found(problem.found)}`, choiceHint(problem, path));
    case 'unit_suspected':
      return explainUnit(problem, path);
    default:
      return undefined;
  }
}

function explainTooLarge({ what, max }: Extract<ShapeProblem, { code: 'too_large' }>): Explanation {
  if (what === 'characters') return { text: `the file is too large: at most ${max} characters are read` };
  if (what === 'nesting') return { text: `lists and maps stand in each other more than ${max} deep` };
  return { text: `aliases (*name) repeat more than ${max} values`, hint: 'write the values out' };
}

/** What to do about the YAML mistakes that people make most, by what the library says of them; the first that fits. */
const SYNTAX_HINTS: readonly (readonly [RegExp, string])[] = [
  [/Missing closing .*quote/, 'the quote that opens here is never closed'],
  [/end with a [\]}]/, 'is a closing bracket ] or } missing?'],
  [/indicator character|reserved character/, 'a value that begins with this character needs quotes'],
  [/Unresolved tag/, 'a value that begins with ! needs quotes'],
  [/Tabs are not allowed/, 'indent with spaces, not with tabs'],
  [/Implicit keys need to be on a single line/, 'is the colon after the key missing, or the space after the colon?'],
  [/block sequence may not be used as an implicit map key/, 'is the space after a dash missing in a line above?'],
  [/Nested mappings/, 'is a colon too many in this line, or an indent too few in the next?'],
  [/same column|without - indicator/, 'keys of one block begin in the same column'],
  [/at node end/, 'quotes inside quotes? then put the other kind around the value'],
  [/^Unexpected/, 'a value with : # [ ] { } or & * ! in it needs quotes'],
];

function explainSyntax(detail: string, yaml: string | undefined): Explanation {
  if (yaml === 'MULTIPLE_DOCS')
    return { text: 'expected one document, found a second one', hint: 'take out the line ---' };
  if (yaml === 'UNRESOLVED_ALIAS')
    return {
      text: 'an alias (*name) without its anchor (&name) before it',
      hint: 'a value that begins with * needs quotes',
    };
  if (yaml === 'KEY_NOT_TEXT') return { text: 'expected a plain word as a key, found something else' };
  const hint = SYNTAX_HINTS.find(([pattern]) => pattern.test(detail))?.[1];
  return withHint(`this is no valid YAML: ${printable(detail, 160)}`, hint);
}

function unknownKeyHint({ key, nearest, known, belongs }: Extract<ShapeProblem, { code: 'unknown_key' }>) {
  if (belongs && belongs.length > 0) {
    const more = belongs.length > 3 ? ' and elsewhere' : '';
    return `it exists as ${list(belongs.slice(0, 3))}${more}: is it in the right place?`;
  }
  if (/^\d+$/.test(key)) return 'numbers are written with a point, not with a comma';
  if (nearest) {
    const unit = unitWords(unitOfKey(nearest));
    return unitOfKey(key) !== unitOfKey(nearest) && unit
      ? `did you mean "${nearest}", in ${unit}?`
      : didYouMean(nearest);
  }
  return known.length > 0 ? `keys that could be here: ${list(known)}` : undefined;
}

function unitOfKey(key: string): string | undefined {
  return /_(m|ms|h|min|deg|y|cm|mm|s)$/.exec(key)?.[1];
}

function explainType({ expected, found: what, unit }: Extract<ShapeProblem, { code: 'wrong_type' }>): Explanation {
  return withHint(`expected ${typeWords(expected, unit)}, found ${found(what)}`, typeHint(expected, what));
}

function typeHint(expected: string, what: string): string | undefined {
  const text = what.startsWith('"') ? what.slice(1, -1) : undefined;
  if (/number/.test(expected)) {
    if (what === 'NaN' || what.endsWith('Infinity')) return 'write an ordinary number';
    if (text !== undefined && text.trim() !== '' && Number.isFinite(Number(text)))
      return `without quotes: ${text.trim()}`;
    if (text !== undefined && /^[+-]?\d+,\d+$/.test(text)) return `with a point: ${text.replace(',', '.')}`;
    if (text !== undefined && /^\d[\d_' ]*\d$/.test(text)) return `digits alone: ${text.replace(/\D/g, '')}`;
  }
  if (expected === 'boolean' && text !== undefined && /^(?:yes|no|on|off|y|n|true|false)$/i.test(text))
    return `write ${/^(?:yes|on|y|true)$/i.test(text) ? 'true' : 'false'}, without quotes`;
  if (expected === 'text' && /^(?:-?[\d.]|true|false)/.test(what)) return `in quotes it is text: "${what}"`;
  if (expected === 'list' && what !== 'null') return 'each item on a line of its own, after a dash and a space';
  if (expected === 'map' && what === 'null') return 'its keys go below it, indented';
  if (expected === 'map' && what === 'list') return 'keys with a colon, without dashes';
  if (expected === 'map' && text !== undefined) return 'keys with values go here, as in name: hall';
  return what === 'null' ? 'a value is missing after the colon; # begins a comment unless it is in quotes' : undefined;
}

function choiceHint(
  { choices, found: what, nearest }: Extract<ShapeProblem, { code: 'not_one_of' }>,
  path: string,
): string | undefined {
  const quoted = choices.find((c) => what === `"${c}"`);
  if (quoted !== undefined) return `without quotes: ${quoted}`;
  if (path === 'format') return 'this version of jambeam reads format 1 only';
  if (path.startsWith('logics.') && (what === '"module"' || what === '"process"'))
    return 'a scenario is data and runs no code; code is named where a run is started: --logic my-logic.ts';
  if (path.startsWith('logics.') && what === '"table"')
    return 'a table needs its file: { use: table, file: my-logic.yaml }';
  return didYouMean(nearest);
}

function lengthWords({ of, min, max }: Extract<ShapeProblem, { code: 'length' }>): string {
  const bound = min === undefined ? max : min;
  const noun = bound === 1 ? of.slice(0, -1) : of;
  return `${min === undefined ? 'at most' : 'at least'} ${bound} ${noun}`;
}

function explainUnit(problem: Extract<ShapeProblem, { code: 'unit_suspected' }>, path: string): Explanation {
  const { found: number, unit, suggestion, written, looks_like } = problem;
  const key = path.split('.').at(-1) ?? '';
  const what = written === undefined ? short(number) : `the text ${quote(written)}`;
  const looks =
    looks_like && written === undefined ? `${short(number)} looks like ${unitWords(looks_like) ?? looks_like}; ` : '';
  const expected = written === undefined && unit !== 'share' ? range(problem) : typeWords('number', unit);
  return { text: `expected ${expected}, found ${what}`, hint: `${looks}write ${printable(key)}: ${suggestion}` };
}

function explainSet(problem: SetProblem): Explanation {
  if (problem.code === 'not_an_assignment')
    return { text: `expected KEY=VALUE, found ${quote(problem.found)}`, hint: 'for example --set hours=2' };
  if (problem.code === 'profile_set')
    return { text: 'a profile is named in the scenario only', hint: 'set its keys one by one' };
  const { segment, within, known, nearest } = problem;
  const where = within === '' ? 'the design' : printable(within);
  const hint =
    within === 'sensors' && SENSOR_KINDS.some((kind) => kind === segment)
      ? `${segment} alone is that kind with its defaults; make it a sensor of your own first: --set "sensors.${segment}={kind: ${segment}}"`
      : (didYouMean(nearest) ?? (known.length > 0 ? `there is ${list(known)}` : `${where} has nothing below it`));
  return { text: `there is no ${quote(segment)} in ${where}`, hint };
}

function didYouMean(nearest: string | undefined): string | undefined {
  return nearest && `did you mean ${quote(nearest)}?`;
}

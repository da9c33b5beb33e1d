/** `--set KEY=VALUE`: changes to a resolved design, by the path grammar of path.ts. */
import { sensorOfKind, withBeamsAimed, withLedgersNamed, withLogicsNamed, withWholeSensors } from './change-kind.js';
import { crossCheck } from './checks/all.js';
import type { Outline } from './checks/outline.js';
import type { Issue, KeyPath, Problem } from './issue.js';
import { child, isPlainObject, showPath, valueAt } from './key-path.js';
import { replaceAt, writePath } from './path.js';
import { type Design, designSchema } from './schema.js';
import { placesOfKeys } from './keys.js';
import { type Assignment, pairSpelt } from './set-pair.js';
import { checkShape } from './shape.js';
import { readYaml } from './yaml-source.js';

/** Applies `KEY=VALUE` texts in order. All that is wrong with them is told at once. */
export function applySets(design: Design, sets: readonly string[]): { design: Design | null; issues: Issue[] } {
  const parsed = sets.map(parseAssignment);
  const issues = parsed.flatMap(({ issue }) => issue ?? []);
  const assignments = parsed.flatMap(({ assignment }) => assignment ?? []);
  const result = assign(design, assignments);
  return issues.length > 0 ? { design: null, issues: [...issues, ...result.issues] } : result;
}

/** `KEY=VALUE` taken apart; VALUE is a YAML scalar or flow collection. */
function parseAssignment(text: string): { assignment?: Assignment; issue?: Issue } {
  const equals = text.indexOf('=');
  const path = text.slice(0, Math.max(0, equals)).trim();
  if (equals < 0 || path === '') return { issue: issueOf('', { code: 'not_an_assignment', found: text }) };
  const written = text.slice(equals + 1).trim();
  const { source, issues } = written === '' ? { source: null, issues: [] } : readYaml(written, '--set');
  const first = issues[0];
  if (first) return { issue: issueOf(path, first.problem) };
  const value = source?.value ?? null;
  if (namesProfile(path, value)) return { issue: issueOf(path, { code: 'profile_set' }) };
  return { assignment: { path, value } };
}

/** Whether a sensor would be had from a file: `--set` comes after files are read. */
function namesProfile(path: string, value: unknown): boolean {
  const [root, ...inside] = path.split('.');
  if (root !== 'sensors' || inside.length > 2) return false;
  if (inside.length === 2) return inside[1] === 'profile';
  const sensors = inside.length === 1 ? [value] : isPlainObject(value) ? Object.values(value) : [];
  return sensors.some((sensor) => isPlainObject(sensor) && Object.hasOwn(sensor, 'profile'));
}

/**
 * A design with values changed, checked again as a whole; the one way by which designs are varied. A level beam stays
 * level: moving its near end takes the far end along, unless the far end is set as well. A beam or sensor that becomes
 * another kind gets the keys of that kind.
 */
export function assign(design: Design, assignments: readonly Assignment[]): { design: Design | null; issues: Issue[] } {
  const issues: Issue[] = [];
  let changed: unknown = design;
  const write = (path: string, value: unknown): void => {
    const result = writePath(changed, path, value);
    if (result.problem) issues.push(issueOf(path, result.problem));
    else changed = result.written.reduce((copy, at) => takeAlong(changed, copy, at, value), result.value);
  };
  // Far ends last: only then is it known where the near ends are.
  const isFar = ({ path }: Assignment) => /(?:^|\.)far_[^.]*$/.test(path);
  for (const { path, value } of [...assignments.filter((a) => !isFar(a)), ...assignments.filter(isFar)]) {
    const spelt = pairSpelt(changed, path, value);
    if ('problem' in spelt) issues.push(issueOf(path, spelt.problem));
    else for (const one of spelt.assignments) write(one.path, one.value);
  }
  changed = withBeamsAimed(changed);
  if (issues.length > 0) return { design: null, issues };
  const shape = checkShape(designSchema, changed, settable());
  if (shape.data === null)
    return { design: null, issues: shape.findings.map((f) => issueOf(showPath(changed, f.path), f.problem)) };
  const crossed = crossCheck(shape.data as Outline).map(({ path, problem }): Issue => {
    return { place: null, path: `after --set: ${showPath(changed, path)}`, problem };
  });
  return crossed.length > 0 ? { design: null, issues: crossed } : { design: shape.data, issues: [] };
}

const inDesign = (path: string): boolean => !path.includes('.pair') && !path.startsWith('sensors.*.profile');

/** Where keys belong in a design: pairs are beams there, and profiles the sensors in them. */
function settable(): ReadonlyMap<string, readonly string[]> {
  const places = [...placesOfKeys()].map(([key, paths]) => [key, paths.filter(inDesign)] as const);
  return new Map(places.filter(([, paths]) => paths.length > 0));
}

const FAR_KEYS: Readonly<Record<string, string>> = { at_m: 'far_at_m', height_m: 'far_height_m' };

/** What a changed value changes with it. */
function takeAlong(before: unknown, after: unknown, at: KeyPath, value: unknown): unknown {
  const [root, , key] = at;
  if (root === 'doors' && key === 'height_m' && at.length === 3) return takeLintelAlong(before, after, at, value);
  if (root === 'ledgers') return withLedgersNamed(after);
  if (root === 'logics' && at.length === 1) return withLogicsNamed(after);
  if (root !== 'sensors') return takeFarEndAlong(before, after, at, value);
  if (key !== 'kind' || at.length !== 3) return withWholeSensors(after, at);
  const sensor = at.slice(0, 2);
  const changed = sensorOfKind(valueAt(before, sensor), value);
  return changed === undefined ? after : replaceAt(after, sensor, changed);
}

/** What hangs from the lintel goes up and down with it. */
function takeLintelAlong(before: unknown, after: unknown, at: KeyPath, value: unknown): unknown {
  const door = at.slice(0, 2);
  const beams = valueAt(before, [...door, 'beams']);
  return (Array.isArray(beams) ? beams : []).reduce<unknown>((design, beam, b) => {
    const hangs = child(beam, 'mount') === 'lintel' && child(beam, 'height_m') === valueAt(before, at);
    return hangs ? replaceAt(design, [...door, 'beams', b, 'height_m'], value) : design;
  }, after);
}

function takeFarEndAlong(before: unknown, after: unknown, at: KeyPath, value: unknown): unknown {
  const key = String(at.at(-1));
  const farKey = FAR_KEYS[key];
  const beam = at.slice(0, -1);
  if (farKey === undefined || beam.at(-2) !== 'beams') return after;
  const old = valueAt(before, beam);
  const wasLevel = child(old, key) === child(old, farKey);
  return wasLevel ? replaceAt(after, [...beam, farKey], value) : after;
}

function issueOf(path: string, problem: Problem): Issue {
  return { place: null, path: path === '' ? '--set' : `--set ${path}`, problem };
}

/**
 * Profiles: sensors whose kind and keys stand in a file of their own, `sensors: { mine: { profile: FILE } }`. They are
 * put into the scenario before anything else looks at it; what is wrong in one is told at its own place.
 */
import { literal } from '../engine/printable.js';
import { type ReadFile, NO_FILES } from './files.js';
import type { Finding, Issue, KeyPath, Problem } from './issue.js';
import { child, isPlainObject, showPath } from './key-path.js';
import { type YamlSource, readYaml } from './yaml-source.js';

const LONGEST_FILE_NAME = 500;
/** More than anybody has sensors; each is read from disk. */
const MOST_FILES = 200;

export interface Profiled {
  /** The scenario with every sensor whole; null in place of one whose profile can't be had. */
  readonly value: unknown;
  /** Problems of profiles as texts. */
  readonly issues: readonly Issue[];
  /** Problems of the scenario with its profiles. */
  readonly findings: readonly Finding[];
  /** Whether a finding is about a sensor whose profile can't be had: there is nothing to say about it yet. */
  hidden(finding: Finding): boolean;
  /** The finding at its place: in the scenario, or in the profile that the value came from. */
  locate(finding: Finding): Issue;
}

export function withProfiles(source: YamlSource, readFile: ReadFile | undefined): Profiled {
  const files = new Files(readFile);
  const profiles = new Map<string, YamlSource | null>();
  const findings: Finding[] = [];
  const sensors = child(source.value, 'sensors');
  const whole = Object.entries(isPlainObject(sensors) ? sensors : {}).map(([name, sensor]): [string, unknown] => {
    if (!isPlainObject(sensor) || !Object.hasOwn(sensor, 'profile')) return [name, sensor];
    const { profile: file, ...own } = sensor;
    const complain = (key: string, problem: Problem) =>
      findings.push({ path: ['sensors', name, key], at: 'value', problem });
    const read =
      typeof file === 'string'
        ? files.read(file)
        : ({ code: 'wrong_type', expected: 'text', found: literal(file) } as const);
    profiles.set(name, read !== null && 'code' in read ? null : read);
    if (read === null) return [name, null];
    if ('code' in read) {
      complain('profile', read);
      return [name, null];
    }
    const { kind } = read.value as Record<string, unknown>;
    if (typeof kind === 'string' && own['kind'] !== undefined && own['kind'] !== kind) {
      complain('kind', { code: 'profile_kind', file: read.file, kind, found: literal(own['kind']) });
      return [name, { ...merged(read.value as Record<string, unknown>, own), kind }];
    }
    return [name, merged(read.value as Record<string, unknown>, own)];
  });
  const value =
    profiles.size === 0 ? source.value : { ...(source.value as object), sensors: Object.fromEntries(whole) };
  return {
    value,
    issues: files.issues,
    findings,
    hidden: ({ path: [root, name] }) => root === 'sensors' && profiles.get(String(name)) === null,
    locate: (finding) => locate(finding, source, value, profiles),
  };
}

/** Each file once, however many sensors name it. */
class Files {
  readonly issues: Issue[] = [];
  private readonly known = new Map<string, YamlSource | Problem | null>();

  constructor(private readonly readFile: ReadFile | undefined) {}

  /** The profile; what is wrong with its name; null when its own issues say all. */
  read(file: string): YamlSource | Problem | null {
    const known = this.known.get(file);
    if (known !== undefined) return known;
    const read = this.fresh(file);
    this.known.set(file, read);
    return read;
  }

  private fresh(file: string): YamlSource | Problem | null {
    if (file === '') return { code: 'length', of: 'characters', min: 1, found: 0 };
    if (file.length > LONGEST_FILE_NAME)
      return { code: 'length', of: 'characters', max: LONGEST_FILE_NAME, found: file.length };
    const unreadable = (detail: string): Problem => ({ code: 'unreadable_file', name: file, detail });
    if (this.known.size >= MOST_FILES) return unreadable(`at most ${MOST_FILES} profiles are read`);
    const text = this.readFile?.(file, 'profile') ?? NO_FILES;
    if (typeof text !== 'string') return unreadable(text.error);
    const { source, issues } = readYaml(text, file);
    this.issues.push(...issues.map(inProfile));
    if (source === null) return null;
    if (isPlainObject(source.value)) {
      if (Object.hasOwn(source.value, 'profile'))
        this.issues.push({ place: source.place(['profile'], 'key'), path: 'profile', problem: NO_OTHER });
      return source;
    }
    const problem = { code: 'wrong_type', expected: 'map', found: literal(source.value) } as const;
    this.issues.push({ place: source.place([], 'value'), path: '', problem });
    return null;
  }
}

const NO_OTHER: Problem = {
  code: 'other',
  message: 'a profile names no other profile',
  hint: 'its kind and keys stand in it',
};

function inProfile(issue: Issue): Issue {
  if (issue.problem.code !== 'empty_file') return issue;
  const problem = { code: 'other', message: 'the profile is empty', hint: '`jambeam fit` writes one' } as const;
  return { ...issue, problem };
}

/** The profile's keys, and the sensor's own before them; maps key by key. */
function merged(
  { profile: _profile, ...profile }: Record<string, unknown>,
  own: Record<string, unknown>,
): Record<string, unknown> {
  const keys = Object.entries(own).map(([key, value]): [string, unknown] => {
    const theirs = child(profile, key);
    return [key, isPlainObject(theirs) && isPlainObject(value) ? { ...theirs, ...value } : value];
  });
  return { ...profile, ...Object.fromEntries(keys) };
}

function locate(
  { path, at, problem }: Finding,
  source: YamlSource,
  value: unknown,
  profiles: ReadonlyMap<string, YamlSource | null>,
): Issue {
  const [root, name, ...inside] = path;
  const profile = root === 'sensors' ? profiles.get(String(name)) : undefined;
  if (profile && inside.length > 0) {
    const here = depth(child(child(source.value, 'sensors'), String(name)), inside);
    const there = depth(profile.value, inside);
    // Where more of the path is, there it was written; a key that is nowhere is missing in the profile.
    if (there > here || (there === here && here < inside.length))
      return { place: profile.place(inside, at), path: showPath(profile.value, inside), problem };
  }
  return { place: source.place(path, at), path: showPath(value, path), problem };
}

function depth(value: unknown, path: KeyPath): number {
  let at = value;
  for (const [i, segment] of path.entries()) {
    at = child(at, segment);
    if (at === undefined) return i;
  }
  return path.length;
}

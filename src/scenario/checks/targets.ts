/** Targets: each names an estimate that there will be, and a limit. */
import { EVERY_ROOM, knownMetrics, parseTargetPath } from '../../score/targets.js';
import type { Finding, KeyPath } from '../issue.js';
import { nearest } from '../../engine/nearest.js';
import { type Outline, finding, unknownName } from './outline.js';

export function checkTargets(outline: Outline): Finding[] {
  return (outline.targets ?? []).flatMap((target, i) => {
    if (!target) return [];
    const { metric, at_most: high, at_least: low } = target;
    const path = ['targets', i];
    const findings = metric === undefined ? [] : checkMetric(outline, metric, [...path, 'metric']);
    if (!('at_most' in target) && !('at_least' in target)) findings.push(finding(path, { code: 'no_limit' }));
    if (low !== undefined && high !== undefined && low > high) {
      const problem = { code: 'not_ordered', low_key: 'at_least', low, high_key: 'at_most', high } as const;
      findings.push(finding([...path, 'at_least'], problem));
    }
    return findings;
  });
}

/** `house[.LOGIC[.LEDGER]].METRIC`, `doors.DOOR[.LOGIC].METRIC` or `rooms.ROOM[.LOGIC[.LEDGER]].METRIC`. */
function checkMetric(outline: Outline, metric: string, path: KeyPath): Finding[] {
  const [root = '', owner = ''] = metric.split('.');
  if (root !== 'house' && root !== 'doors' && root !== 'rooms')
    return [finding(path, { code: 'bad_metric_root', root })];
  if (root !== 'house') {
    const [what, owners] = root === 'doors' ? ['door', outline.doors] : ['room', outline.rooms];
    const every = root === 'rooms' && owner === EVERY_ROOM;
    const unknown = every ? [] : unknownName(what, owner, namesOf(owners), path);
    if (unknown.length > 0) return unknown;
  }
  const parsed = parseTargetPath(metric);
  if (!parsed) {
    const known = knownMetrics(root);
    const name = metric.slice(root.length + 1 + (root === 'house' ? 0 : owner.length + 1));
    return [finding(path, { code: 'unknown_name', what: 'metric', name, known, nearest: nearest(name, known) })];
  }
  const { logic } = parsed;
  const ledger = parsed.of === 'doors' ? undefined : parsed.ledger;
  return [
    ...unknownName('logic', logic, logicNames(outline), path),
    ...unknownName('ledger', ledger, ledgerNames(outline), path),
  ];
}

function namesOf(items: readonly ({ readonly name?: string | undefined } | undefined)[] | undefined) {
  return items ? items.map((item) => item?.name) : [undefined];
}

/** A table without a name here has one inside: unknown as yet. */
function logicNames(outline: Outline): readonly (string | undefined)[] {
  return (outline.logics ?? [undefined]).map((logic) => {
    if (typeof logic !== 'object') return logic;
    return logic.name ?? (logic.use === 'table' ? undefined : logic.use);
  });
}

function ledgerNames(outline: Outline): readonly (string | undefined)[] {
  return (outline.ledgers ?? [undefined]).map((one) => (typeof one === 'object' ? (one.name ?? one.use) : one));
}

/** Walkers, sensors and targets, each by itself. */
import { LEDGERS } from '../../counter/schema.js';
import { doorMetricsSchema, estimateSchema, metricsSchema, roomMetricsSchema } from '../../score/metrics-schema.js';
import { z } from 'zod';
import type { Finding, KeyPath } from '../issue.js';
import { nearest } from '../nearest.js';
import { type Outline, finding, unknownName } from './outline.js';

export function checkWalkers(outline: Outline): Finding[] {
  return Object.entries(outline.walkers ?? {}).flatMap(([name, walker]) => {
    if (walker?.kind === 'people') {
      const [low, high] = walker.ages_y ?? [];
      if (typeof low !== 'number' || typeof high !== 'number' || low <= high) return [];
      const problem = { code: 'not_ordered', low_key: 'youngest', low, high_key: 'oldest', high } as const;
      return [finding(['walkers', name, 'ages_y'], problem)];
    }
    if (walker?.kind === 'test-rod') {
      const { speed_mps: low, speed_to_mps: high } = walker;
      if (low === undefined || high === undefined || low <= high) return [];
      const problem = { code: 'not_ordered', low_key: 'speed_mps', low, high_key: 'speed_to_mps', high } as const;
      return [finding(['walkers', name, 'speed_to_mps'], problem)];
    }
    return [];
  });
}

export function checkSensors(outline: Outline): Finding[] {
  return Object.entries(outline.sensors ?? {}).flatMap(([name, sensor]) => {
    const { spurious_per_hour: per_hour, spurious_ms: length_ms } = sensor ?? {};
    if (per_hour === undefined || length_ms === undefined || per_hour * length_ms < 3_600_000) return [];
    return [finding(['sensors', name, 'spurious_per_hour'], { code: 'always_broken', per_hour, length_ms })];
  });
}

export function cautionSensors(outline: Outline): Finding[] {
  return Object.entries(outline.sensors ?? {}).flatMap(([name, sensor]) => {
    if (!sensor) return [];
    const { spurious_per_hour = 0, spurious_ms, response_ms, shiny_share = 0, layout } = sensor;
    const findings: Finding[] = [];
    if (shiny_share > 0 && layout === 'through-beam') {
      const problem = { code: 'no_effect', key: 'shiny_share', because_key: 'layout', because: layout } as const;
      findings.push(finding(['sensors', name, 'shiny_share'], problem));
    }
    if (spurious_per_hour > 0 && spurious_ms !== undefined && response_ms !== undefined && spurious_ms <= response_ms) {
      const because = String(response_ms);
      const problem = { code: 'no_effect', key: 'spurious_ms', because_key: 'response_ms', because } as const;
      findings.push(finding(['sensors', name, 'spurious_ms'], problem));
    }
    return findings;
  });
}

const METRIC_ROOTS = ['house', 'doors', 'rooms'] as const;

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

/** `house.METRIC`, `doors.DOOR[.LOGIC].METRIC` or `rooms.ROOM[.LOGIC][.LEDGER].METRIC`. */
function checkMetric(outline: Outline, metric: string, path: KeyPath): Finding[] {
  const [root = '', ...rest] = metric.split('.');
  if (!METRIC_ROOTS.includes(root as (typeof METRIC_ROOTS)[number]))
    return [finding(path, { code: 'bad_metric_root', root })];
  const owners = root === 'doors' ? outline.doors : root === 'rooms' ? outline.rooms : undefined;
  const ownerMissing =
    root === 'house' ? [] : unknownName(root === 'doors' ? 'door' : 'room', rest.shift() ?? '', namesOf(owners), path);
  if (ownerMissing.length > 0) return ownerMissing;
  if (root !== 'house' && logicNames(outline).includes(rest[0])) rest.shift();
  if (root === 'rooms' && LEDGERS.some((ledger) => ledger === rest[0])) rest.shift();
  const known = estimatesOf(
    root === 'house' ? metricsSchema.shape.house : root === 'doors' ? doorMetricsSchema : roomMetricsSchema,
  );
  const name = rest.join('.');
  if (known.includes(name)) return [];
  return [finding(path, { code: 'unknown_name', what: 'metric', name, known, nearest: nearest(name, known) })];
}

function namesOf(items: readonly ({ readonly name?: string | undefined } | undefined)[] | undefined) {
  return items ? items.map((item) => item?.name) : [undefined];
}

function logicNames(outline: Outline): readonly (string | undefined)[] {
  return (outline.logics ?? []).map((logic) => (typeof logic === 'string' ? logic : (logic?.name ?? logic?.use)));
}

/** Paths of all single estimates below an object of metrics.json; lists in it have no fixed paths. */
function estimatesOf(schema: z.ZodType, prefix = ''): string[] {
  if (schema === estimateSchema) return [prefix];
  if (!(schema instanceof z.ZodObject)) return [];
  const shape = schema.shape as Record<string, z.ZodType>;
  return Object.entries(shape).flatMap(([key, inner]) => estimatesOf(inner, prefix ? `${prefix}.${key}` : key));
}

/** Walkers and sensors, each by itself. */
import type { Finding } from '../issue.js';
import { type Outline, finding } from './outline.js';

export function checkWalkers(outline: Outline): Finding[] {
  return Object.entries(outline.walkers ?? {}).flatMap(([name, walker]) => {
    if (walker?.kind === 'people') {
      const [low, high] = walker.ages_y ?? [];
      if (typeof low !== 'number' || typeof high !== 'number' || low <= high) return [];
      const problem = { code: 'not_ordered', low_key: 'youngest', low, high_key: 'oldest', high } as const;
      return [finding(['walkers', name, 'ages_y'], problem)];
    }
    if (walker?.kind === 'test-rod') {
      const { speed_mps: low, speed_to_mps: high, diameter_m, height_m } = walker;
      const found: Finding[] = [];
      if (low !== undefined && high !== undefined && low > high) {
        const problem = { code: 'not_ordered', low_key: 'speed_mps', low, high_key: 'speed_to_mps', high } as const;
        found.push(finding(['walkers', name, 'speed_to_mps'], problem));
      }
      // Its top is rounded: a rod lower than its radius would stick out above itself.
      if (height_m !== undefined && diameter_m !== undefined && height_m < diameter_m / 2) {
        found.push(finding(['walkers', name, 'height_m'], { code: 'rod_too_low', height_m, least_m: diameter_m / 2 }));
      }
      return found;
    }
    return [];
  });
}

export function checkSensors(outline: Outline): Finding[] {
  return Object.entries(outline.sensors ?? {}).flatMap(([name, sensor]) => {
    if (sensor?.kind !== 'light-barrier') return [];
    const { spurious_per_hour: per_hour, spurious_ms: length_ms } = sensor;
    if (per_hour === undefined || length_ms === undefined || per_hour * length_ms < 3_600_000) return [];
    return [finding(['sensors', name, 'spurious_per_hour'], { code: 'always_broken', per_hour, length_ms })];
  });
}

export function cautionSensors(outline: Outline): Finding[] {
  return Object.entries(outline.sensors ?? {}).flatMap(([name, sensor]) => {
    if (sensor?.kind !== 'light-barrier') return [];
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

/** One front door with light barriers, changed where a test needs it. */
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';

export interface DoorChanges {
  readonly width_m?: number;
  readonly lintel_m?: number;
  readonly height_m?: number;
  readonly spacing_m?: number;
  readonly sensor?: string;
  readonly poll_ms?: number;
  /** Rows of the mix, as in YAML. */
  readonly mix?: string;
  /** Walkers of its own, as in YAML. */
  readonly walkers?: string;
  readonly logics?: string;
}

/** Rods 0.30 m thick and 1.80 m tall at 1 m/s. */
export const ROD = '{ rod: { kind: test-rod, diameter_m: 0.3, height_m: 1.8, speed_mps: 1 } }';

export function doorDesign(changes: DoorChanges = {}): Design {
  const {
    width_m = 0.9,
    lintel_m = 2,
    height_m = 0.95,
    spacing_m = 0.1,
    sensor = '{ kind: light-barrier, response_ms: 0 }',
    poll_ms,
    mix = '[{ who: adult, kind: through, share: 0.7 }, { who: child, kind: through, share: 0.3 }]',
    walkers = '{}',
    logics = '[four-level]',
  } = changes;
  const text = `format: 1
name: Test door
rooms: [{ name: hall }]
doors:
  - name: front
    from: outside
    to: hall
    width_m: ${width_m}
    height_m: ${lintel_m}
    jamb_depth_m: 0.5
    pair: { sensor: barrier, height_m: ${height_m}, spacing_m: ${spacing_m} }
    traffic: { arrivals_per_hour: 20, mix: ${mix} }
sensors: { barrier: ${sensor} }
controllers: [{ name: main${poll_ms === undefined ? '' : `, poll_ms: ${poll_ms}`} }]
walkers: ${walkers}
logics: ${logics}
`;
  const { design, issues } = parseScenario(text, 'door.yaml');
  if (!design) throw new Error(issues.map(formatIssue).join('\n'));
  return design;
}

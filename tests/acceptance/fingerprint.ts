/**
 * One small run of everything that can differ between engines: every kind of passage, people, tables and rods, noise,
 * polling, a tilted beam, rangers of every kind with strays, doors that hear each other, all logics and ledgers. As texts, so that whoever ran it can hash them.
 */
import { starterTable } from '../../src/counter/table/starter.js';
import type * as Library from '../../src/index.js';

const SCENARIO = `
format: 1
name: Two doors (invented)
seed: same everywhere
replicates: 2
hours: 0.75
rooms:
  - { name: hall, people_at_start: 4 }
  - { name: parlour, people_at_start: 6, presence: { miss_share: 0.3, hold_min: 5 } }
doors:
  - name: front
    from: outside
    to: hall
    width_m: 1.4
    pair: { sensor: noisy, height_m: 0.85, spacing_m: 0.1 }
    controller: polling
    traffic:
      arrivals_per_hour: [{ from: '00:00', per_hour: 40 }, { from: '12:00', per_hour: 80 }]
      forward_share: 0.7
      mix:
        - { who: adult, kind: through, share: 0.3 }
        - { who: child, kind: through, share: 0.1 }
        - { who: adult, kind: abreast, share: 0.1 }
        - { who: adult, kind: close-behind, share: 0.1 }
        - { who: adult, kind: against, share: 0.1 }
        - { who: adult, kind: turn-back, share: 0.1 }
        - { who: child, kind: linger, share: 0.1 }
        - { who: adult-with-infant, kind: through, share: 0.05 }
        - { who: rod, kind: through, share: 0.05 }
  - name: parlour-door
    from: hall
    to: parlour
    width_m: 0.7
    beams:
      - { name: A, sensor: mirror, at_m: -0.05, height_m: 0.2 }
      - { name: B, sensor: mirror, at_m: 0.05, height_m: 0.2, far_height_m: 0.26, far_at_m: 0.07 }
    controller: wired
    traffic:
      arrivals_per_hour: 15
      forward_share: 0.5
      stay_mean_min: 5
      mix:
        - { who: family, kind: through, share: 0.6 }
        - { who: grandmother, kind: turn-back, share: 0.2 }
        - { who: family, kind: linger, share: 0.2 }
  - name: cellar
    from: hall
    to: outside
    width_m: 0.9
    at_m: { x: 2, y: 1 }
    facing_deg: 75
    beams:
      - { name: A, sensor: sound, mount: right-jamb, at_m: -0.08, height_m: 0.9, tilt_deg: 4 }
      - { name: B, sensor: infrared, at_m: 0.06, height_m: 1.1, turn_deg: 3 }
    controller: turns
    traffic:
      arrivals_per_hour: 12
      forward_share: 0.5
      stay_mean_min: 5
      mix:
        - { who: adult, kind: through, share: 0.7 }
        - { who: child, kind: linger, share: 0.3 }
  - name: loft
    from: hall
    to: outside
    width_m: 0.9
    at_m: { x: 3.5, y: 1 }
    pair: { sensor: light, spacing_m: 0.2, mount: lintel }
    controller: turns
    traffic:
      arrivals_per_hour: 12
      forward_share: 0.5
      stay_mean_min: 5
      mix: [{ who: adult, kind: through, share: 0.8 }, { who: adult, kind: turn-back, share: 0.2 }]
surroundings: { temperature_c: 12, humidity_percent: 70, sunlight_klx: 2 }
walkers:
  family:
    kind: table
    rows: [{ stature_m: 1.82, share: 2 }, { stature_m: 1.66, sex: woman, share: 2 }, { stature_m: 1.21, age_y: 7 }]
  grandmother: { kind: person, stature_m: 1.58, sex: woman, age_y: 78, speed_mps: 0.6 }
  rod: { kind: test-rod, diameter_m: 0.2, height_m: 1.7, speed_mps: 0.4, speed_to_mps: 1.1 }
sensors:
  noisy:
    kind: light-barrier
    beam_diameter_m: 0.02
    covered_share: 0.8
    response_ms: 4
    spurious_per_hour: 6
    missed_share: 0.03
    separation: none
  sound:
    kind: ultrasonic-ranger
    stray_share: 0.002
    dropout_share: 0.001
    switching: { median_of: 3, off_delay_ms: 60 }
  infrared: { kind: triangulation-ranger, range_m: 1.2, stray_share: 0.001 }
  light: { kind: time-of-flight-ranger, timing_budget_ms: 20, switching: { minimum_samples: 2 } }
  mirror: { kind: light-barrier, layout: reflector, shiny_share: 0.1 }
controllers:
  - { name: polling, poll_ms: 8, restarts_per_week: 100, restart_s: 30, tallies_lost_share: 0.02, tallies_twice_share: 0.01 }
  - { name: wired }
  - { name: turns, wait_ms: 8, per_round_ms: 2, serial_characters: 6 }
logics:
  - four-level
  - first-broken
  - hold-off
  - { use: table, file: my-logic.yaml, name: my-logic }
ledgers:
  - raw
  - floor
  - { use: cap, at_most: 12 }
  - { use: reset, at: '12:00', to: start }
  - { use: conserve, household: 30 }
  - presence
  - { use: likelihood, household: 30, keep: 32 }
targets:
  - { metric: house.wrong_per_100, at_most: 5 }
`;

export type Texts = Readonly<Record<'metrics' | 'figures' | 'passages' | 'tallies' | 'edges' | 'readings', string>>;

/** Runs the scenario with the library given; rows as JSON, one a line. */
export function textsOf({ parseScenario, simulate }: Pick<typeof Library, 'parseScenario' | 'simulate'>): Texts {
  const { design, issues } = parseScenario(SCENARIO, 'two-doors.yaml', { readFile: () => starterTable() });
  if (!design) throw new Error(JSON.stringify(issues));
  const rows = { passages: '', tallies: '', edges: '', readings: '' };
  const keep = (kind: keyof typeof rows) => (replicate: number, row: object) => {
    rows[kind] += `${replicate} ${JSON.stringify(row)}\n`;
  };
  const sinks = { passage: keep('passages'), tally: keep('tallies'), edge: keep('edges'), reading: keep('readings') };
  const { metrics, figures } = simulate(design, sinks);
  return { metrics: JSON.stringify(metrics), figures: JSON.stringify(figures), ...rows };
}

/** What the starter says of each kind of sensor: its pair, its own keys and what reads it, as commented YAML. */
import type { SensorKind } from '../sensors/schema.js';

export interface StarterParts {
  /** Name of the sensor in the starter. */
  readonly name: string;
  /** How such sensors are put up, below `pair:`. */
  readonly pair: string;
  /** Keys of the sensor, below its `kind`. */
  readonly keys: string;
  /** The controller's keys. */
  readonly controller: string;
}

const BARRIER_PAIR = `    pair:                # two level beams: A is met first going forward, B second
      sensor: my-barrier
      height_m: 0.95     # above the floor; decides what the beams see: legs, arms or trunk
      spacing_m: 0.10    # from A to B; the middle of the door frame is half-way
`;

const RANGER_PAIR = `    pair:                # two rangers: A is met first going forward, B second
      sensor: my-ranger
      mount: left-jamb   # both in one jamb, looking across. Or right-jamb; interleaved or facing: one in each; lintel
      height_m: 0.95     # above the floor; decides what they see: legs, arms or trunk
      spacing_m: 0.10    # from A to B; the middle of the door frame is half-way
      # tilt_deg: 10     # looking up (+) or down (-) from level
`;

const LEARNT = `    switching:                # how distances become "broken" and "clear"
      margin_m: 0.15          # this much nearer than the learnt background is "broken"
      hysteresis_m: 0.03      # and clear again only from this much further
      median_of: 1            # 3 or 5 take out single wild readings, and cost time
`;

const turns = (cycle_ms: number): string => `  - name: main                # reads the rangers, one after another
    cycle_ms: ${cycle_ms}              # from the start of one turn to the next; stretched where a reading takes longer
    # turns: [[front.A], [front.B]]   # who is read together; without it each has a turn of its own
`;

/** @param width_m of the opening, for what can't look across all of it */
export function starterParts(kind: SensorKind, width_m: number): StarterParts {
  switch (kind) {
    case 'light-barrier':
      return {
        name: 'my-barrier',
        pair: BARRIER_PAIR,
        keys: `    layout: through-beam      # or reflector: emitter and receiver on one side
    beam_diameter_m: 0.006    # effective diameter of the beam
    response_ms: 1            # shorter interruptions go unseen
    spurious_per_hour: 0      # false alarms with nobody there
    missed_share: 0           # interruptions it fails to report
    separation: alternate     # how A and B are kept from seeing each other: none, alternate or carriers
`,
        controller: `  - name: main                # reads the beams; without poll_ms they are wired to interrupts
    # poll_ms: 5              # reads all beams this often instead
`,
      };
    case 'ultrasonic-ranger':
      return {
        name: 'my-ranger',
        pair: RANGER_PAIR,
        keys: `    range_m: 4                # echoes from further away are not waited for
    blind_m: 0.02             # nearer than this it is deaf: its burst still rings
    time_out_ms: 38           # how long the controller waits when no echo comes
    noise_m: 0.001            # standard deviation of a reading
    clothing_most_db: 12      # soft clothes swallow up to this much of their echo
    dropout_share: 0          # readings without echo, whoever is there
${LEARNT}`,
        controller: `${turns(30)}    # wait_ms: 10             # instead of cycle_ms: a pause after each reading, for echoes to die away
`,
      };
    case 'triangulation-ranger':
      return {
        name: 'my-ranger',
        pair: RANGER_PAIR,
        keys: `    range_m: 0.8              # beyond this its light spot fades into noise
    fold_m: 0.1               # nearer than this things seem further away: keep it out of the doorway
    measure_ms: 40            # it measures this often by itself, whenever it is asked
    noise_v: 0.005            # standard deviation of its voltage
    linearised_by: same-curve # how volts become metres; \`jambeam fit\` fits a curve to readings of your own
    # gain_v_m, offset_m and base_v are that curve. A file with them goes in as  profile: my-ranger.profile.yaml
    switching:                # how distances become "broken" and "clear"
      nearer_than_m: ${Math.round(Math.min(0.7, width_m - 0.15) * 100) / 100}      # nearer than this is "broken": in a wide door the other jamb is out of its range
      hysteresis_m: 0.03      # and clear again only from this much further
      median_of: 1            # 3 or 5 take out single wild readings, and cost time
`,
        controller: turns(30),
      };
    case 'time-of-flight-ranger':
      return {
        name: 'my-ranger',
        pair: RANGER_PAIR,
        keys: `    half_angle_deg: 12.5      # it looks into a cone: half of what that is wide
    timing_budget_ms: 33      # how long each reading gathers light
    range_m: 3                # in the dark, to something white
    sunlight_halves_at_klx: 10   # daylight that halves the range; see surroundings: { sunlight_klx: 0.2 }
    noise_m: 0.003            # standard deviation of a reading near by
${LEARNT}`,
        controller: turns(35),
      };
  }
}

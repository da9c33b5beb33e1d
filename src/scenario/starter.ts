/** The scenario that `jambeam new` writes: one front door, commented for somebody who builds their own. */
import type { SensorKind } from '../sensors/schema.js';
import { FORMAT } from './schema.js';
import { starterParts } from './starter-parts.js';

export interface StarterOptions {
  /** What the report is titled with. */
  readonly name?: string;
  /** Clear width of the opening, metres. */
  readonly width_m?: number;
  /** The kind of sensor. */
  readonly sensor?: SensorKind;
}

/** YAML that parses without an issue, given that `my-logic.yaml` stands beside it. */
export function starterScenario({
  name = 'Front door',
  width_m = 0.9,
  sensor = 'light-barrier',
}: StarterOptions = {}): string {
  const parts = starterParts(sensor, width_m);
  return `# yaml-language-server: $schema=./scenario.schema.json
# A doorway, and the beams you think of putting into its frame. Check it with: jambeam check, simulate it with: jambeam run.
# Every number's name carries its unit: _m is metres, _ms milliseconds, _min minutes. \`jambeam keys\` lists all keys.

format: ${FORMAT}
name: ${JSON.stringify(name)}
seed: 1                  # same seed, same result; another seed, another crowd
replicates: 20           # how often the whole time span is simulated, each time with other people
hours: 8                 # how long each of them lasts
starts_at: "08:00"

rooms:                   # rooms whose people are counted; outside is always there and needs no entry
  - name: hall
    people_at_start: 0   # who is in there when the clock starts

doors:
  - name: front
    from: outside        # walking from here ...
    to: hall             # ... to here is "forward"
    width_m: ${width_m}         # clear width between the jambs
    height_m: 2.0        # clear height, floor to lintel
    jamb_depth_m: 0.12   # how deep the frame is: room for the beams without brackets
    zone_m: 1.0          # who is nearer to the door than this counts as being in the doorway

${parts.pair}
    traffic:
      arrivals_per_hour: 20   # parties that set out per hour; their way back comes on top
      forward_share: 1        # 1: all set out from outside. Less: some set out from the hall (then it needs people)
      stay_mean_min: 20       # how long they stay inside on average
      home_pace: 0.7          # at home people walk slower than in the street: 0.7 times as fast (an assumption)
      # Who comes, and what they do in the doorway. Nobody has counted this for your house: these shares are an
      # ASSUMPTION. Put in your own; they must add up to 1. The report shows what half and double of each would do.
      mix:
        - { who: adult, kind: through, share: 0.62 }
        - { who: child, kind: through, share: 0.24 }
        - { who: adult, kind: abreast, share: 0.06 }     # two at once, if the door is wide enough
        - { who: adult, kind: turn-back, share: 0.04 }   # goes in, thinks better of it
        - { who: adult, kind: linger, share: 0.03 }      # stands in the doorway for a while
        - { who: adult-with-infant, kind: through, share: 0.01 }   # two people, one body

sensors:
  ${`${parts.name}:`.padEnd(22)} # put in what its data sheet says; these numbers are an ASSUMPTION, no real sensor's
    kind: ${sensor}
${parts.keys}
controllers:
${parts.controller}
# Ways to turn two beams into "one in" or "one out". All are judged on the same people; the first gives the verdict.
logics:
  - use: four-level           # follows A, both, B, none step by step, and every step back
    timeout_ms: 10000
  - use: first-broken         # the beam broken first gives the direction
  - use: hold-off             # the same, then deaf for a moment
    hold_off_ms: 600
  - use: table                # your own, as a table of states and rules
    file: my-logic.yaml
    name: my-logic

ledgers: [raw, floor]         # how tallies become a room's count: plain sum, or never below zero

# What is good enough for you. INVENTED for this example: at most 2 wrong counts in 100 people.
targets:
  - metric: house.wrong_per_100
    at_most: 2
`;
}

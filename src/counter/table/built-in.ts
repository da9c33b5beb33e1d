/**
 * The built-in logics as tables, with the timeouts that a scenario states. With the default ones they are the files of
 * `scenarios/tables`, to the letter.
 */
import type { AnyChoice } from '../schema.js';

type NoTable = Exclude<AnyChoice, { readonly use: 'table' }>;

/** The text of the table that tallies as the logic does; null for a logic that is none of them. */
export function builtInTable(choice: NoTable): string | null {
  switch (choice.use) {
    case 'first-broken':
      return firstBroken(choice.timeout_ms);
    case 'four-level':
      return fourLevel(choice.timeout_ms);
    case 'hold-off':
      return holdOff(choice.timeout_ms, choice.hold_off_ms);
    default:
      return null;
  }
}

function firstBroken(timeout_ms: number): string {
  return `# First-broken order: the beam broken first gives the direction, one tally when both have been broken and both are
# clear again. The same logic as the built-in \`first-broken\`, as a table.
format: 1
name: first-broken
beams: [A, B]
defeated_by: >-
  Whoever breaks both beams and turns back is counted as through, and somebody who only touched one beam gives the next
  person, from the other side, the wrong direction.
${order(timeout_ms, 'rest')}${WAIT}`;
}

function fourLevel(timeout_ms: number): string {
  return `# The four-level walk: a body deeper than the spacing shows 00 -> 10 -> 11 -> 01 -> 00 going forward (beams A, B).
# The same logic as the built-in \`four-level\`, as a table.
format: 1
name: four-level
beams: [A, B]
defeated_by: >-
  A body shallower than the spacing is never counted, bodies that overlap from both-clear to both-clear count as one,
  and an edge lost between two polls loses the passage.
start: rest
states:
  rest:
    - { on: "10", go: forward-1 }
    - { on: "01", go: backward-1 }
    - { on: "11", go: lost }          # both at one instant: no order was seen

  forward-1:                          # A alone
    - { on: "11", go: forward-2 }
    - { on: "00", go: rest }          # turned back
    - { on: "01", go: lost }
    - { after_ms: ${timeout_ms}, go: lost }
  forward-2:                          # both
    - { on: "01", go: forward-3 }
    - { on: "10", go: forward-1 }
    - { on: "00", go: rest }          # an edge was lost: through or back, nobody knows
    - { after_ms: ${timeout_ms}, go: lost }
  forward-3:                          # B alone
    - { on: "00", go: rest, tally: forward }
    - { on: "11", go: forward-2 }
    - { on: "10", go: forward-1 }     # B left and A came at one instant: still one walk
    - { after_ms: ${timeout_ms}, go: lost }

  backward-1:                         # B alone
    - { on: "11", go: backward-2 }
    - { on: "00", go: rest }
    - { on: "10", go: lost }
    - { after_ms: ${timeout_ms}, go: lost }
  backward-2:                         # both
    - { on: "10", go: backward-3 }
    - { on: "01", go: backward-1 }
    - { on: "00", go: rest }
    - { after_ms: ${timeout_ms}, go: lost }
  backward-3:                         # A alone
    - { on: "00", go: rest, tally: backward }
    - { on: "11", go: backward-2 }
    - { on: "01", go: backward-1 }
    - { after_ms: ${timeout_ms}, go: lost }

  lost:                               # direction forgotten: wait until both beams are clear
    - { on: "00", go: rest }
    - { stay: other }
`;
}

function holdOff(timeout_ms: number, hold_off_ms: number): string {
  return `# First-broken order that ignores both beams for a while after each tally, so that a trailing leg is no second person.
# The same logic as the built-in \`hold-off\`, as a table.
format: 1
name: hold-off
beams: [A, B]
defeated_by: >-
  Whoever follows closer than the hold-off is missed, and as in first-broken order whoever breaks both beams and turns
  back is counted as through.
${order(timeout_ms, 'hold')}  hold:                               # deaf: staying does not start the timeout again
    - { stay: other }
    - { after_ms: ${hold_off_ms}, go: wait }

${WAIT}`;
}

/** States of first-broken order. @param then where it goes after a tally */
function order(timeout_ms: number, then: 'rest' | 'hold'): string {
  return `start: rest
states:
  rest:
    - { on: "10", go: a-first }
    - { on: "01", go: b-first }
    - { on: "11", go: wait }          # both at one instant: no order was seen

  a-first:                            # A was broken first, B not yet
    - { on: ["00", "10"], go: a-first }   # entered anew: the timeout starts again
    - { on: ["01", "11"], go: a-then-b }
    - { after_ms: ${timeout_ms}, go: wait }
  a-then-b:
    - { on: "00", go: ${then}, tally: forward }
    - { on: other, go: a-then-b }
    - { after_ms: ${timeout_ms}, go: wait }

  b-first:
    - { on: ["00", "01"], go: b-first }
    - { on: ["10", "11"], go: b-then-a }
    - { after_ms: ${timeout_ms}, go: wait }
  b-then-a:
    - { on: "00", go: ${then}, tally: backward }
    - { on: other, go: b-then-a }
    - { after_ms: ${timeout_ms}, go: wait }

`;
}

const WAIT = `  wait:                               # until both beams are clear; at once if they are
    - { on: "00", go: rest }
    - { stay: other }
`;

/** The commented table that a new project begins with. */

/** A four-level walk for beginners; compiles without issues. */
export function starterTable(): string {
  return `# A counting logic as a table of states. Change it, run the scenario again, and see what it costs or gains.
#
# Two beams cross the doorway. Whoever goes forward breaks A, then both, then only B, then leaves:
#
#     00  ->  10  ->  11  ->  01  ->  00        (1 = broken, 0 = clear; A is written first, then B)
#
# and backward the mirror of it: 00 -> 01 -> 11 -> 10 -> 00.
# The table below follows that walk step by step, back and forth, and counts only who came all the way.
format: 1
name: my-table
beams: [A, B]
start: rest              # it begins here, with all beams clear

states:
  rest:                                    # nobody in the doorway
    - { on: "10", go: forward-1 }          # on these levels, go to that state
    - { on: "01", go: backward-1 }
    - { on: "11", go: lost }               # both at one instant: nobody knows who came from where

  forward-1:                               # somebody coming forward broke A
    - { on: "11", go: forward-2 }
    - { on: "00", go: rest }               # turned back: nothing to count
    - { on: "01", go: lost }               # A and B changed at one instant: something was not seen
    - { after_ms: 10000, go: lost }        # ten seconds in this state: stop guessing
  forward-2:                               # both broken
    - { on: "01", go: forward-3 }
    - { on: "10", go: forward-1 }          # stepping back
    - { on: "00", go: rest }               # through or back? Not seen, not counted
    - { after_ms: 10000, go: lost }
  forward-3:                               # only B: nearly through
    - { on: "00", go: rest, tally: forward }    # through: one person forward
    - { on: "11", go: forward-2 }
    - { on: "10", go: forward-1 }          # as B cleared, the next one broke A
    - { after_ms: 10000, go: lost }

  backward-1:                              # the same from the other side
    - { on: "11", go: backward-2 }
    - { on: "00", go: rest }
    - { on: "10", go: lost }
    - { after_ms: 10000, go: lost }
  backward-2:
    - { on: "10", go: backward-3 }
    - { on: "01", go: backward-1 }
    - { on: "00", go: rest }
    - { after_ms: 10000, go: lost }
  backward-3:
    - { on: "00", go: rest, tally: backward }
    - { on: "11", go: backward-2 }
    - { on: "01", go: backward-1 }
    - { after_ms: 10000, go: lost }

  lost:                                    # wait until the doorway is empty, then begin again
    - { on: "00", go: rest }
    - { stay: other }                      # "other": all levels this state has no rule for
`;
}

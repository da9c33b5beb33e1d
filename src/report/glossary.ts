/** The few words a reader needs, in the order they build on each other. */
export const WORDS: readonly (readonly [string, string])[] = [
  ['beam', 'the line one sensor looks along; broken when something is in it, clear when not'],
  [
    'ranger',
    'a sensor that reads a distance again and again; its beam is broken while readings are near enough, as its switching says',
  ],
  ['turn', 'one go of a controller at a ranger, or at several at once; all its turns are a round'],
  ['forward', 'from the room a door names first to the one it names second; beam A is met first'],
  ['visit', 'one body’s stay in the doorway zone, whether it goes through or not'],
  ['crossing', 'one person going through; an adult with an infant on the arm makes two'],
  ['logic', 'the rule that turns broken and clear beams into tallies'],
  ['tally', 'what a logic says: one person forward, or one backward'],
  ['missed', 'a crossing without a tally'],
  ['reversed', 'a crossing tallied the wrong way round; it counts once as wrong and twice as drift'],
  ['extra', 'a tally too many for somebody who did go through'],
  ['invented', 'a tally for somebody who did not go through, or for nobody'],
  ['wrong', 'missed, reversed, extra and invented together, per 100 crossings; it can exceed 100'],
  ['ledger', 'how tallies become the number of persons in a room'],
  ['drift', 'counted minus true, with its sign'],
  ['replicate', 'one repetition of the whole simulation with a crowd of its own'],
  [
    '95 % interval',
    'where the number would lie in 95 of 100 such runs’ intervals; it covers chance in the simulation, not whether the assumptions are right',
  ],
];

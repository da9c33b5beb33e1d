/** Why a visit was counted wrong: what can be taken away, and what can be read from the record. In the order they are tried. */

/** What is taken away, one thing at a time. */
export const REMOVALS = ['noise', 'other bodies', 'arms', 'lower legs', 'load', 'leaf', 'scan gaps'] as const;
export type Removal = (typeof REMOVALS)[number];

/** What each of them means, for readers. */
export const REMOVAL_MEANS: Readonly<Record<Removal, string>> = {
  noise:
    'what sensors say that nobody caused: spurious and missed breaks, shiny clothes, noise of readings, strays, drop-outs, bursts of other rangers',
  'other bodies': 'everybody else in the doorway, people, pets and things',
  arms: 'upper arms and forearms',
  'lower legs': 'shanks and feet, of pets the lower half of each leg',
  load: 'what is carried, pushed or pulled, with whoever is in it',
  leaf: 'the door leaf and the curtain',
  'scan gaps': 'times in which the controller does not look: polling, turns of rangers, restarts',
};

/** Read from the record where no removal helps. */
export const STRUCTURES = [
  'background',
  'beam saw nothing',
  'shallower than the spacing',
  'timeout',
  'not at rest',
  'rule',
] as const;
export type Structure = (typeof STRUCTURES)[number];

export const STRUCTURE_MEANS: Readonly<Record<Structure, string>> = {
  background:
    'a ranger had learnt something nearer than the idle door for its background, so that nobody could be nearer',
  'beam saw nothing': 'one of the beams was never truly broken by the body',
  'shallower than the spacing': 'the body never broke the two beams at once',
  timeout: 'the logic gave up waiting while the body was there',
  'not at rest': 'the logic was still busy with something else when the body came',
  rule: 'the logic gets such a passage wrong even when the body is alone and every edge is seen at once and free of noise',
};

/** How a cause was found. */
export const HOWS = ['only', 'either', 'pair', 'structure', 'unexplained', 'not reproduced'] as const;
export type How = (typeof HOWS)[number];

/** Why one visit, or one tally of nobody, went wrong. */
export interface Why {
  /**
   * `only`: without this thing alone it would have been right; `either`: without any one of them; `pair`: only without both;
   * `structure`: nothing helped, but the record says this.
   */
  readonly how: How;
  readonly things: readonly (Removal | Structure)[];
}

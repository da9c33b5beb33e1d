/** Small invented houses whose ways can be worked out by hand. */
import { designOf } from '../scenario/helpers.js';

const BEAMS = `    pair: { height_m: 0.9, spacing_m: 0.1 }
    traffic: { arrivals_per_hour: 6 }`;

/**
 * A hall, 4 m by 3 m, with the front door in the middle of its lower wall (front, 0.9 m), and a kitchen, 3 m by 3 m, to
 * its right with a door (inner, 0.8 m) in the middle of the wall between them. All beams at 0.9 m, lintels at 2.0 m.
 */
export const HOUSE = `format: 1
name: Two rooms (invented)
rooms:
  - { name: hall, people_at_start: 9, at_m: { x: 0, y: 0 }, size_m: { x: 4, y: 3 } }
  - { name: kitchen, at_m: { x: 4, y: 0 }, size_m: { x: 3, y: 3 } }
controllers:
  - { name: main, at_m: { x: 0, y: 2 } }
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    at_m: { x: 2, y: 0 }
${BEAMS}
  - name: inner
    from: hall
    to: kitchen
    width_m: 0.8
    at_m: { x: 4, y: 1.5 }
    facing_deg: 90
${BEAMS}
`;

/** The hall with a landing of its size above it, stairs at (0, 1), and a bedroom beside the landing as the kitchen was. */
export const TWO_STOREYS = `format: 1
name: Two storeys (invented)
rooms:
  - { name: hall, people_at_start: 9, at_m: { x: 0, y: 0 }, size_m: { x: 4, y: 3 } }
  - { name: landing, people_at_start: 9, at_m: { x: 0, y: 0 }, size_m: { x: 4, y: 3 }, storey: 1 }
  - { name: bedroom, at_m: { x: 4, y: 0 }, size_m: { x: 3, y: 3 }, storey: 1 }
controllers:
  - { name: main, at_m: { x: 0, y: 2 } }
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    at_m: { x: 2, y: 0 }
${BEAMS}
  - name: stairs
    from: hall
    to: landing
    way: stairs
    width_m: 0.9
    at_m: { x: 0, y: 1 }
    facing_deg: 270
${BEAMS}
  - name: bed
    from: landing
    to: bedroom
    width_m: 0.8
    at_m: { x: 4, y: 1.5 }
    facing_deg: 90
${BEAMS}
`;

export const house = (...changes: readonly (readonly [from: string, to: string])[]) =>
  designOf(
    changes.reduce((text, [from, to]) => {
      if (!text.includes(from)) throw new Error(`no such text: ${from}`);
      return text.replace(from, () => to);
    }, HOUSE),
  );
export const twoStoreys = () => designOf(TWO_STOREYS);

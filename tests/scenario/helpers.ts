/** A small valid scenario, and shorthands for what goes wrong with it. */
import { formatIssue } from '../../src/scenario/explain.js';
import { type ParseOptions, parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';

/** Line numbers in tests count in this text. */
export const VALID = `format: 1
name: Back door
rooms:
  - name: hall
  - name: kitchen
    people_at_start: 2
doors:
  - name: back
    from: outside
    to: hall
    width_m: 0.9
    pair:
      height_m: 0.9
      spacing_m: 0.1
    traffic:
      arrivals_per_hour: 12
`;

export const TABLE = `format: 1
name: my-logic
beams: [A, B]
start: rest
states:
  rest:
    - { on: "10", go: rest }
    - { stay: other }
`;

/** The scenario with one piece of text in place of another, which must be there. */
export function edit(from: string, to: string, text = VALID): string {
  if (!text.includes(from)) throw new Error(`no such text: ${from}`);
  return text.replace(from, () => to);
}

/** Each issue as the user sees it. */
export function messages(text: string, options?: ParseOptions): string[] {
  return parseScenario(text, 's.yaml', options).issues.map(formatIssue);
}

export function cautions(text: string, options?: ParseOptions): string[] {
  return parseScenario(text, 's.yaml', options).cautions.map(formatIssue);
}

/** The design of a text that must be right. */
export function designOf(text: string, options?: ParseOptions): Design {
  const { design, issues } = parseScenario(text, 's.yaml', options);
  if (!design) throw new Error(issues.map(formatIssue).join('\n'));
  return design;
}

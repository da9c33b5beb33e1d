/** What no model could make sense of is refused before it runs. */
import { expect, test } from 'vitest';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';

const doors = (beam: string, rod: string) => `format: 1
name: Lines
rooms: [{ name: hall }]
walkers: { rod: ${rod} }
doors:
  - name: d
    from: outside
    to: hall
    width_m: 0.4
    zone_m: 2
    beams:
      - ${beam}
      - { name: B, sensor: light-barrier, at_m: 0.1, height_m: 1 }
    traffic: { arrivals_per_hour: 1, mix: [{ who: rod, kind: through, share: 1 }] }
`;

test('a beam that runs along the walk rather than across it', () => {
  const text = doors(
    '{ name: A, sensor: light-barrier, at_m: -0.5, far_at_m: 0.5, height_m: 1 }',
    '{ kind: test-rod, diameter_m: 0.3, speed_mps: 1 }',
  );
  const { design, issues } = parseScenario(text, 'lines.yaml');
  expect(design).toBeNull();
  expect(issues.map(formatIssue).join('\n')).toMatch(/^lines\.yaml:12:\d+: .*at most 0\.6 m along the walk.*found 1 m/);
});

test('a rod lower than its own rounded top', () => {
  const text = doors(
    '{ name: A, sensor: light-barrier, at_m: -0.1, height_m: 1 }',
    '{ kind: test-rod, diameter_m: 1, height_m: 0.05, speed_mps: 1 }',
  );
  const { design, issues } = parseScenario(text, 'lines.yaml');
  expect(design).toBeNull();
  expect(issues.map(formatIssue).join('\n')).toMatch(/^lines\.yaml:4:\d+: .*at least 0\.5 m.*found 0\.05 m/);
});

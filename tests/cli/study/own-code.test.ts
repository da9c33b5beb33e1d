/** Studies of a logic of one's own: what it does wrong is its design's error, and no other's. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { StudySummary } from '../../../src/study/summary-schema.js';
import { jambeam } from '../jambeam.js';
import { cellsIn, folderWithStudy } from './folder.js';

const BASE = { hours: 0.5, replicates: '4' };

describe("a logic of one's own", () => {
  const LOGIC = (step: string): string => `import { defineLogic } from 'jambeam';
export default defineLogic({
  name: 'mine', beams: 2, latency_us: 1000000,
  initial: () => ({ last: 0 }),
  step(state, input) { ${step} return { state, tallies: [] }; },
});
`;
  test.each([
    ['throws', "if (input.time_us > 300e6) throw new Error('tired');", /tired/],
    ['never returns', 'if (input.time_us > 300e6) for (;;);', /has not returned within 2 s/],
    ['ends the process', 'if (input.time_us > 300e6) process.exit(0);', /ended the simulation|process\.exit/],
  ])(
    'that %s: its design is recorded with the error, the rest goes on, and the exit code says so',
    async (_, step, words) => {
      const path = folderWithStudy({ ...BASE, spacings: [0.05], replicates: '2', rest: '' });
      writeFileSync(join(path, 'mine.ts'), LOGIC(step));
      writeFileSync(
        join(path, 'study.yaml'),
        'format: 1\nname: own\nscenario: rods.yaml\nfactors: [{ key: hours, values: [0.05, 0.2] }]\nreplicates: 2\n',
      );
      const { code, out } = await jambeam(
        ['study', 'study.yaml', '--out', 'out', '--quiet', '--logic', 'mine.ts', '--logic-timeout-s', '2'],
        { cwd: path },
      );
      expect(code).toBe(3);
      const { designs } = JSON.parse(readFileSync(join(path, 'out', 'study.json'), 'utf8')) as StudySummary;
      expect(designs.map(({ state, replicates }) => [state, replicates])).toEqual([
        ['done', 2],
        ['failed', 0],
      ]);
      expect(designs[1]!.error).toMatch(words);
      expect(out).toMatch(/Design 2 failed: /);
    },
  );
});

test("code that can't be loaded is told at once", async () => {
  const path = folderWithStudy(BASE);
  writeFileSync(join(path, 'mine.ts'), 'export default 5;\n');
  const { code, err } = await jambeam(['study', 'study.yaml', '--out', 'out', '--quiet', '--logic', 'mine.ts'], {
    cwd: path,
  });
  expect(code).toBe(2);
  expect(err).toMatch(/mine\.ts/);
  expect(cellsIn(join(path, 'out'))).toBe(0);
});

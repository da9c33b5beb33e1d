/** Which code stands behind which logic of a design. */
import { expect, test } from 'vitest';
import { codeOf, givenLogics } from '../../src/cli/logic-options.js';
import { doorDesign } from '../simulate/designs.js';

const DESIGN = doorDesign();
const given = givenLogics({
  logics: [
    { option: '--logic-process', value: './count fast' },
    { option: '--logic', value: 'scenarios/my-logic.ts' },
    { option: '--logic-process', value: "'./count' slow" },
  ],
});
const module = { use: 'module', name: 'one', file: 'my-logic.ts' } as const;

test('each is found by its file or command, in whatever order, and has its name and digest', () => {
  const sha256 = 'a'.repeat(64);
  const job = codeOf({ ...DESIGN, logics: [{ ...module, sha256 }, ...DESIGN.logics, process('./count fast')] }, given);
  expect(job!.codes).toEqual([
    {
      use: 'module',
      name: 'one',
      path: expect.stringMatching(/[\\/]my-logic\.ts$/) as unknown,
      shown: 'scenarios/my-logic.ts',
      sha256,
    },
    { use: 'process', name: './count fast', words: ['./count', 'fast'], shown: './count fast', sha256: undefined },
  ]);
});

test('a design without code needs none', () => expect(codeOf(DESIGN, given)).toBeNull());

test('what a design only names is not looked for anywhere', () => {
  const twice = { ...DESIGN, logics: [module, { ...module, name: 'two' }] };
  expect(() => codeOf(twice, given)).toThrow(
    'the logic "two" is code of your own, my-logic.ts, and code is never taken',
  );
  expect(() => codeOf({ ...DESIGN, logics: [process('./other')] }, given)).toThrow(
    'name it again with --logic-process',
  );
});

function process(command: string) {
  return { use: 'process', name: command, command } as const;
}

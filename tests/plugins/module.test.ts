/** A module of the user's own: loaded as it stands, believed in nothing. */
import { describe, expect, test } from 'vitest';
import { CHOICE, DOOR, driven, moduleCode, open, write } from './built.js';

const STILL = 'initial: () => 0, step: (state) => ({ state, tallies: [] })';
const stepping = (body: string, initial = '({ n: 0 })') =>
  moduleCode(`export default { beams: 2, initial: () => ${initial}, step(state, { time_us, levels }) { ${body} } };`);

describe('a module is loaded as it stands', () => {
  test('TypeScript, importing jambeam and files beside it', async () => {
    write('way.ts', "export type Way = 'forward' | 'backward';\nexport const WAY: Way = 'backward';\n");
    const { tallies, steps } = await driven(
      moduleCode(`
        import { defineLogic } from 'jambeam';
        import { WAY, type Way } from './way.js';
        export default defineLogic<{ way: Way | null }>({
          beams: 2,
          initial: () => ({ way: null }),
          step: (state, { levels }) => levels.includes(1)
            ? { state: { way: WAY }, tallies: [] }
            : { state: { way: null }, tallies: state.way ? [state.way] : [] },
          label: ({ way }) => way ?? 'rest',
        });`),
    );
    expect(tallies).toEqual(['backward 1300000']);
    expect(steps.map(({ label }) => label)).toEqual(['backward', 'backward', 'backward', 'rest']);
  });

  test('as an export called `logic`, with defaults for what it leaves out', async () => {
    const code = await open(moduleCode(`export const logic = { beams: 2, ${STILL} };`, 'bare.mjs'));
    const logic = code.outside(CHOICE, DOOR);
    expect(logic).toMatchObject({ name: 'mine', beams: 2, latency_us: 0, defeated_by: '' });
    expect((logic as { label(state: unknown): string }).label({ a: 1 })).toBe('{"a":1}');
  });

  test.each([
    ['nothing', 'export {};', 'expected a logic as its default export or as `logic`, found nothing'],
    ['something else', 'export const lgic = 1;', 'found lgic'],
    [
      'two logics',
      `export default { beams: 2, ${STILL} };\nexport const logic = { beams: 3, ${STILL} };`,
      'they differ',
    ],
    ['a class', 'export default class {}', 'expected a logic, found a function'],
    [
      'a half',
      'export default { beams: 0, initial: 1 };',
      /beams: expected .* found 0; .*initial: .* found 1; step: .* found nothing/,
    ],
    [
      'a slip of the pen',
      `export default { beams: 2, latency: 5, ${STILL} };`,
      'unknown key "latency": did you mean latency_us?',
    ],
  ])('and refused when it exports %s', async (_what, text, message) => {
    await expect(open(moduleCode(text))).rejects.toThrow(message);
  });

  test.each([
    [
      'a slip of syntax',
      'export default {\n  beams: 2,,\n};\n',
      /\.ts:2:12: this is no valid TypeScript or JavaScript: /,
    ],
    [
      'a throw at the top',
      'const x = 1;\nthrow new Error("\\x1b[2Jno");\n',
      /\.ts:2:7: \\u\{1b\}\[2Jno\n {2}while it was loaded/,
    ],
    [
      'an import that leads nowhere',
      "\nimport x from './nowhere.js';\nexport default x;\n",
      /\.ts:2:16: Cannot find module/,
    ],
  ])('%s is told with its place', async (_what, text, message) => {
    const problem = await open(moduleCode(text)).catch((error: Error) => error);
    expect(problem).toMatchObject({ name: 'CodeProblem', placed: true });
    expect((problem as Error).message).toMatch(message);
    expect((problem as Error).message).not.toContain('    at ');
  });

  test('for a door with as many beams as it expects', async () => {
    const code = await open(moduleCode(`export default { beams: 3, ${STILL} };`));
    expect(() => code.outside(CHOICE, DOOR)).toThrow('expects 3 beams at every door, door front has 2');
  });
});

describe('what a step does wrong is told with the time and the door', () => {
  test('a throw: file, line and column, in lines of the TypeScript file', async () => {
    const code = moduleCode(
      [
        'interface Deep { readonly x?: { readonly y: number } }',
        '',
        'export default {',
        '  beams: 2,',
        '  initial: (): Deep => ({}),',
        '  step(state: Deep, { time_us }: { time_us: number }) {',
        '    if (time_us > 1_150_000) return { state: { x: { y: state.x!.y } }, tallies: [] };',
        '    return { state, tallies: [] };',
        '  },',
        '};',
      ].join('\n'),
    );
    await expect(driven(code)).rejects.toThrow(
      /\.ts:7:6[45]: Cannot read properties of undefined \(reading 'y'\)\n {2}in step, at 1\.2 s of the clock, door front$/,
    );
  });

  test.each([
    ['a broken contract', "return { state, tallies: ['in'] };", 'a tally must be "forward" or "backward", got "in"'],
    ['no answer', '', 'a step must return an object with state and tallies, got undefined'],
    ['a state changed in place', 'state.n++; return { state, tallies: [] };', 'changed what it was given in place'],
    ['levels changed in place', 'levels.push(1); return { state, tallies: [] };', 'object is not extensible'],
    [
      'a state in hiding',
      'return { state: { n: (globalThis.hidden = (globalThis.hidden ?? 0) + 1) }, tallies: [] };',
      'gave two answers',
    ],
    [
      'chance',
      "return { state, tallies: Math.random() < 0.5 ? ['forward'] : [], wake_us: time_us + 1 };",
      'gave two answers',
    ],
    [
      'a list of tallies that it goes on filling',
      "(globalThis.list ??= []).push('forward'); return { state, tallies: globalThis.list };",
      'gave two answers',
    ],
    [
      'a state with functions in it',
      'return { state: { n: () => 1 }, tallies: [] };',
      'what step returns must be plain data',
    ],
    [
      'a flood',
      "return { state, tallies: ['forward'], wake_us: time_us + 1000 };",
      'over 1000 more tallies than inputs from the beams',
    ],
  ])('%s', async (_what, body, message) => {
    await expect(driven(stepping(body))).rejects.toThrow(message);
  });

  test('a state that is no plain data', async () => {
    const code = stepping('return { state, tallies: [] };', 'new (class Walk { n = 0 })()');
    await expect(driven(code)).rejects.toThrow('its state must be plain data');
  });

  test('a state changed in place long after the start: some steps are rehearsed for ever', async () => {
    const code = stepping('if (time_us > 3e9) state.n++; return { state, tallies: [] };');
    const inputs = Array.from({ length: 4000 }, (_, i) => [1_000_000 * (i + 1), i % 2] as const);
    await expect(driven(code, { inputs })).rejects.toThrow('changed what it was given in place');
  });
});

describe('the digest', () => {
  const digest = async (code: ReturnType<typeof moduleCode>) => (await open(code)).recorded.get('mine')?.sha256;
  const text = `import { N } from './n.js';\nexport default { beams: N, defeated_by: 'Fog.', ${STILL} };`;

  test('changes with the file and with what it imports, and with nothing else', async () => {
    write('n.ts', 'export const N = 2;');
    const first = await digest(moduleCode(text, 'd.ts'));
    expect(first).toMatch(/^[0-9a-f]{64}$/);
    write('unrelated.ts', 'export {};');
    expect(await digest(moduleCode(text, 'd.ts'))).toBe(first);
    expect(await digest(moduleCode(`${text}\n`, 'd.ts'))).not.toBe(first);
    write('n.ts', 'export const N = 2; ');
    expect(await digest(moduleCode(text, 'd.ts'))).not.toBe(first);
  });

  test('must be that of the run that is looked at again', async () => {
    const code = moduleCode(text, 'd.ts');
    const sha256 = await digest(code);
    await expect(open({ ...code, sha256 })).resolves.toBeDefined();
    await expect(open({ ...code, sha256: '0'.repeat(64) })).rejects.toThrow('is not what the run was made with');
  });

  test('stands beside what the module says defeats it', async () => {
    expect((await open(moduleCode(text, 'd.ts'))).recorded.get('mine')?.defeated_by).toBe('Fog.');
  });
});

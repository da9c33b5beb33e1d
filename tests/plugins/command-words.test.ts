/** Words of a command: as a POSIX shell parts them, as long as nothing but blanks and quotes is in it. */
import { spawnSync } from 'node:child_process';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { commandWords } from '../../src/plugins/command-words.js';

test('blanks part words, quotes and backslashes hold them together, all else means itself', () => {
  expect(commandWords('./a.out')).toEqual(['./a.out']);
  expect(commandWords('  python3 "my logic.py"  -x ')).toEqual(['python3', 'my logic.py', '-x']);
  expect(commandWords("p 'it''s' ''")).toEqual(['p', 'its', '']);
  expect(commandWords('p a\\ b "say \\"hi\\" \\n"')).toEqual(['p', 'a b', 'say "hi" \\n']);
  expect(commandWords('p $HOME *.c | sh; #')).toEqual(['p', '$HOME', '*.c', '|', 'sh;', '#']);
});

test.each(['', '   ', "p 'x", 'p "x', 'p x\\', "''"])('nothing to run, or a quote left open: %j', (command) =>
  expect(commandWords(command)).toBeNull(),
);

test('the shell of this machine parts quotes in the same way', () => {
  const characters = fc.constantFrom('a', 'b', ' ', "'", '"', '\\', '-');
  fc.assert(
    fc.property(fc.string({ unit: characters, maxLength: 12 }), (args) => {
      const words = commandWords(`printf ${args}`);
      fc.pre(words !== null && words.length > 1);
      const { stdout } = spawnSync('sh', ['-c', `printf '<%s>\\n' x${args.startsWith(' ') ? '' : ' '}${args}`]);
      const ours = commandWords(`x ${args}`)!.map((word) => `<${word}>\n`);
      expect(stdout.toString()).toBe(ours.join(''));
    }),
    { seed: 7, numRuns: 60 },
  );
});

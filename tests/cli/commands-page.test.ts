/** docs/commands.md and the help: every command and option, its default, and examples that can be typed. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { starterTable } from '../../src/counter/table/starter.js';
import { EDITOR_SCHEMAS } from '../../src/cli/editor-schemas.js';
import { commandWords } from '../../src/plugins/command-words.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { measureOf } from '../../src/study/judge/measure.js';
import { wantOf } from '../../src/study/judge/pick.js';
import { commandTree, examplesIn, helpOf } from './command-tree.js';
import { commandsPage } from './commands-page.js';
import { folder, jambeam } from './jambeam.js';

const page = readFileSync('docs/commands.md', 'utf8');
const names = commandTree().tree.commands.map((command) => command.name());
const section = (name: string): string => page.split(/^###? /m).find((part) => part.startsWith(`${name}\n`)) ?? '';

test('the page is made of the definitions: a change detector, `npm run schemas` writes it again', async () => {
  await expect(commandsPage()).toMatchFileSnapshot('../../docs/commands.md');
});

// Read from what the built program prints, not from the definitions the page is made of.
test.each(names)('%s: the page has the options of its --help, with their defaults, and no others', async (name) => {
  const { out } = await jambeam([name, '--help'], { cwd: folder() });
  const own = out.slice(0, out.search(/\nExamples:/)).replace(/\s+/g, ' ');
  const flags = (text: string): string[] => [
    ...new Set([...text.matchAll(/(?<![\w`-])--[a-z][\w-]*/g)].map(([f]) => f)),
  ];
  const rows = [...section(name).matchAll(/^\| `(?:-\w, )?(--[\w-]+).*` \| .* \| (.*) \|$/gm)];
  const inHelp = flags(own.slice(own.indexOf(' Options: '))).filter((flag) => flag !== '--help');
  const shown = rows.map(([, flag]) => flag as string);
  expect(shown.filter((flag) => !inHelp.includes(flag))).toEqual([]);
  expect(inHelp.filter((flag) => !shown.includes(flag))).toEqual([]);
  for (const [, flag, preset] of rows.filter(([, , text]) => text !== ''))
    expect({ flag, own }).toEqual({ flag, own: expect.stringContaining(`: ${preset})`) });
  expect(own.match(/\(default/g)?.length ?? 0).toBe(rows.filter(([, , preset]) => preset !== '').length);
});

describe('examples of the help', () => {
  const all = [undefined, ...names].flatMap((name) =>
    examplesIn(helpOf(name)).map((line) => ({ of: name ?? 'jambeam', line })),
  );

  test('there are two to seven for each command', () => {
    for (const name of names) {
      const own = all.filter(({ of }) => of === name);
      expect({ name, enough: own.length >= 2 && own.length <= 7 }).toEqual({ name, enough: true });
      expect(own.some(({ line }) => line.includes(`jambeam ${name} `))).toBe(true);
    }
  });

  test.each(all)('$of: $line', async ({ line }) => {
    // What a shell does with the words is no matter here.
    const typed = /jambeam (.*?)(?: [|>] .*|\))?$/.exec(line)![1]!;
    const { tree, said } = commandTree();
    const ran: { readonly name: string; readonly options: Record<string, unknown> }[] = [];
    for (const command of tree.commands)
      command.action(() => void ran.push({ name: command.name(), options: command.opts() }));
    await tree.parseAsync(commandWords(typed)!, { from: 'user' });
    expect(said()).toBe('');
    expect(ran).toHaveLength(1);
    const { set, want, schema } = ran[0]!.options as { set?: string[]; want?: string[]; schema?: string };
    const read = parseScenario(starterScenario(), 'starter.yaml', { sets: set ?? [], readFile: starterTable });
    expect(read.issues.map(formatIssue)).toEqual([]);
    for (const one of want ?? []) {
      const of = { doors: ['front'], rooms: [], logics: ['four-level'], ledgers: ['raw'], hours: 8 };
      expect(measureOf(wantOf(one)!.metric, of)).toMatchObject({ path: wantOf(one)!.metric });
    }
    if (schema !== undefined) expect(Object.keys(EDITOR_SCHEMAS)).toContain(schema);
  });
});

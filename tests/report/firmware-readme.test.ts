/** The page beside the source: its program compiles as it stands, its names are those of the source, its cautions are all there. */
import { describe, expect, test } from 'vitest';
import { CAUTIONS } from '../../src/report/cautions.js';
import { firmwareReadme } from '../../src/report/firmware-readme.js';
import { blocks, flat } from '../acceptance/markdown.js';
import { COMPILERS, NO_COMPILERS, compile, folderOf, play } from '../c-compilers.js';
import { DOORS, designOf, filesOf, newFirmwareFor } from '../simulate/firmware/doors.js';

function pageOf(name: string) {
  const choice = DOORS[name]!;
  const design = designOf(choice);
  const firmware = newFirmwareFor(choice, 10);
  const logic = design.logics[choice.logic ?? 0]!.name;
  return { firmware, page: firmwareReadme({ design, door: design.doors[choice.door ?? 0]!, logic, firmware }) };
}

/** What the page leaves to the builder, and a hundred milliseconds of a door where somebody goes through forward. */
const HOOKS = `
static uint32_t now_us = 4294960000u;
static long shown = -1;
uint32_t clock_us(void) { return now_us; }
static uint8_t pattern(void)
{
    static const uint8_t walk[] = {0, 1, 3, 2, 0};
    const uint32_t step = (now_us - 4294960000u) / 2000000u;
    return walk[step < 2 ? 0 : step < 6 ? step - 2 : 4];
}
uint8_t is_broken(uint8_t beam) { return (uint8_t)((pattern() >> beam) & 1); }
void start_reading(uint8_t beam) { (void)beam; }
uint8_t reading_has_come(uint8_t beam) { (void)beam; return 1; }
int32_t reading_um(uint8_t beam) { return is_broken(beam) ? 100000 : 900000; }
void show(long people) { shown = people; }
int main(void)
{
    long i;
    setup();
    for (i = 0; i < 20000; i++) {
        loop();
        now_us += 1000;
    }
    return shown == 1 ? 0 : 1;
}
`;

describe.each([
  'light barriers',
  'light barriers, polled',
  'a ranger and a light barrier',
  'rangers read together',
  'rangers among those of other doors',
])('%s', (name) => {
  const { firmware, page } = pageOf(name);

  test.skipIf(NO_COMPILERS)('its program compiles, and counts one who walks through forward', () => {
    const [program = ''] = blocks(page, 'c');
    const hooks = [
      'uint8_t is_broken(uint8_t beam);',
      'void start_reading(uint8_t beam);',
      'uint8_t reading_has_come(uint8_t beam);',
      'int32_t reading_um(uint8_t beam);',
      'void setup(void);',
      'void loop(void);',
      'int main(void);',
    ];
    const main = `${program}\n${hooks.join('\n')}${HOOKS}`;
    const folder = folderOf({ ...filesOf(firmware), 'main.c': main });
    for (const compiler of COMPILERS) {
      const built = compile(compiler, folder, [firmware.names.source, 'main.c']);
      expect(play(built, []).status).toBe(0);
    }
  });

  test('every function and constant it names is there', () => {
    const code = firmware.texts.header + firmware.texts.source;
    for (const [word] of page.matchAll(/\bdoor\d_[a-z_]+\b|\bDOOR\d_[A-Z_]+\b/g))
      if (!word.endsWith('_test')) expect(code).toContain(word);
    for (const [call] of firmware.texts.header.matchAll(/\bdoor\d_\w+(?=\()/g)) expect(page).toContain(`\`${call}(`);
  });

  test('it says all cautions, and which state is which', () => {
    for (const { title, text } of CAUTIONS)
      expect(flat(page)).toContain(`**${title}.** ${text.replace('this report does not', 'this page does not')}`);
    for (const [i, state] of firmware.plan.table.states.entries())
      expect(page).toContain(`| ${i} | \`${state.name}\` |`);
  });
});

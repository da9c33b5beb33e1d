/** Arrays of C: to the letter, and read back. What compilers make of them is tested where programs are built. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { c32, cArray, cSigned32 } from '../../src/engine/c-array.js';

test('a short one stands on one line', () => {
  expect(cArray('uint8_t', 'levels', ['0', '1', '3'])).toBe('static const uint8_t levels[3] = {\n    0, 1, 3\n};\n');
});

test('a long one is folded to lines of 96 and a comma, and loses and invents nothing', () => {
  fc.assert(
    fc.property(fc.array(fc.nat(4_294_967_295).map(c32), { minLength: 1, maxLength: 200 }), (numbers) => {
      const text = cArray('uint32_t', 'x', numbers);
      const [head, ...lines] = text.trimEnd().split('\n');
      expect(head).toBe(`static const uint32_t x[${numbers.length}] = {`);
      expect(lines.pop()).toBe('};');
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(4 + 96 + 1);
      expect(
        lines
          .map((line) => line.trim())
          .join(' ')
          .split(', '),
      ).toEqual(numbers);
    }),
    { seed: 7 },
  );
});

test('constants carry their type', () => {
  expect([c32(4_294_967_295), cSigned32(-2_147_483_647)]).toEqual(['4294967295UL', '-2147483647L']);
});

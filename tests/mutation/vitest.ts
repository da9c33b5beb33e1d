/**
 * Vitest, but that a suite whose body throws holds a test that fails. Else nothing of the file is collected, and the mutant
 * that broke it has met no test that failed: it would count as a survivor.
 */
import { describe as original, test } from 'vitest';

export * from 'vitest';

type Body = (...row: readonly unknown[]) => unknown;

const caught =
  (body: Body): Body =>
  async (...row) => {
    try {
      await body(...row);
    } catch (error) {
      test('is collected', () => {
        throw error;
      });
    }
  };
const withCaught = (args: readonly unknown[]): readonly unknown[] =>
  args.map((arg) => (typeof arg === 'function' ? caught(arg as Body) : arg));

type Call = (...args: readonly unknown[]) => unknown;
const suite = original as unknown as Call;
// A method: it reads what it is called on.
const methods = original as unknown as { each(...cases: readonly unknown[]): Call };

export const describe = Object.assign((...args: readonly unknown[]) => suite(...withCaught(args)), {
  each: (...cases: readonly unknown[]) => {
    const named = methods.each(...cases);
    return (...args: readonly unknown[]) => named(...withCaught(args));
  },
}) as unknown as typeof original;

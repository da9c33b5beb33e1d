/** A bench that gives wrong answers fast is worth nothing: every case checks its own before its time counts. */
export function check(holds: boolean, what: string): void {
  if (!holds) throw new Error(`wrong answer: ${what}`);
}
export function checkWithin(value: number | null, [low, high]: readonly [number, number], what: string): void {
  check(value !== null && value >= low && value <= high, `${what} is ${value}, expected ${low} to ${high}`);
}

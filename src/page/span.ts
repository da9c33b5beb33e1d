/** The stretch of time that all charts over time show, in hours since the start; null: each its whole. */
export type Span = readonly [from_h: number, to_h: number] | null;

let now: Span = null;
const followers: ((span: Span) => void)[] = [];

export const span = (): Span => now;

export function setSpan(to: Span): void {
  now = to;
  for (const follow of followers) follow(to);
}

/** Called whenever the span changes, and at once. */
export function followSpan(follow: (span: Span) => void): void {
  followers.push(follow);
  follow(now);
}

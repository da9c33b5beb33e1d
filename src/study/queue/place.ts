/** Where a queue is, and what goes wrong with it, in words that hold no password. */

/** What can't go on because of Redis, in words for the user. */
export class QueueProblem extends Error {
  constructor(
    message: string,
    readonly hint?: string,
  ) {
    super(message);
  }
}

/** Where a URL leads, without who asks. */
export function placeOf(url: string): string {
  const { protocol, hostname, port } = parsed(url);
  return `${protocol}//${hostname}:${port || '6379'}`;
}

function parsed(url: string): URL {
  let found: URL | null = null;
  try {
    found = new URL(url);
  } catch {
    // Said below, without the text: it may hold a password.
  }
  if (found && (found.protocol === 'redis:' || found.protocol === 'rediss:') && found.hostname !== '') return found;
  throw new QueueProblem(
    '--redis: expected redis://HOST:PORT or rediss://HOST:PORT',
    'USER:PASSWORD@ may stand before the host',
  );
}

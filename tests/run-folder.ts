/** One folder for everything that tests write, taken away when all have ended, however single ones went. */
import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    runFolder: string;
  }
}

export default function setup({ provide }: TestProject): () => void {
  const path = mkdtempSync(join(tmpdir(), 'jambeam-tests-'));
  // Other users go through it to what is theirs: tests of permissions are one of them.
  chmodSync(path, 0o711);
  provide('runFolder', path);
  return () => rmSync(path, { recursive: true, force: true });
}

/** SHA-256, by which a reader can tell whether two files are one. */
import { createHash } from 'node:crypto';

/** 64 hexadecimal digits, of a text those of its UTF-8. */
export function sha256(bytes: string | Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

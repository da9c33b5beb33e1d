/** Bundled with the library and loaded into a blank page: a hash for each text, by the browser's own SHA-256. */
import * as library from '../../src/index.js';
import { textsOf } from './fingerprint.js';

/** What a browser has and Node's types don't name. */
declare const crypto: { readonly subtle: { digest(name: string, bytes: Uint8Array): Promise<ArrayBuffer> } };

export async function hashes(): Promise<Record<string, string>> {
  const all: Record<string, string> = {};
  for (const [name, text] of Object.entries(textsOf(library))) {
    const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text)));
    all[name] = Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
  }
  return all;
}

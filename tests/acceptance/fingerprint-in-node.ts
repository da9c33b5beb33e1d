/** Run by another Node: `node fingerprint-in-node.mjs URL`, the library's address; prints a hash for each text. */
import type * as Library from '../../src/index.js';
import { textsOf } from './fingerprint.js';
import { hashesOf } from './hashes.js';

const library = (await import(process.argv[2] ?? '')) as typeof Library;
process.stdout.write(JSON.stringify(hashesOf(textsOf(library))));

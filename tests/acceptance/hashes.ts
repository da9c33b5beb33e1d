/** SHA-256 of each text, as every place that runs the small scenario gives it. */
import { createHash } from 'node:crypto';
import type { Texts } from './fingerprint.js';

export type Hashes = Readonly<Record<keyof Texts, string>>;

export function hashesOf(texts: Texts): Hashes {
  const hash = (text: string): string => createHash('sha256').update(text).digest('hex');
  return {
    metrics: hash(texts.metrics),
    figures: hash(texts.figures),
    passages: hash(texts.passages),
    tallies: hash(texts.tallies),
    edges: hash(texts.edges),
    readings: hash(texts.readings),
  };
}

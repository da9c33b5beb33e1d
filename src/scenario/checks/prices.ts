/** Prices: of parts that are there, and one each. */
import { SENSOR_KINDS } from '../../sensors/schema.js';
import { PARTS } from '../effort-schema.js';
import type { Finding } from '../issue.js';
import { type Outline, finding, unknownName } from './outline.js';

export function checkPrices(outline: Outline): Finding[] {
  // A map that can't be read has names nobody knows.
  const sensors = outline.sensors ? Object.keys(outline.sensors) : [undefined];
  const controllers = (outline.controllers ?? [undefined]).map((controller) => controller?.name);
  const known = [...PARTS, ...SENSOR_KINDS, ...sensors, ...controllers];
  const seen = new Set<string>();
  return (outline.prices ?? []).flatMap((price, i) => {
    const part = price?.part;
    if (part === undefined) return [];
    const path = ['prices', i, 'part'];
    if (seen.has(part)) return [finding(path, { code: 'duplicate_name', what: 'price', name: part })];
    seen.add(part);
    return unknownName('part', part, known, path);
  });
}

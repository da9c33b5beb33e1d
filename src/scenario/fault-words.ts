/** What a schema has against a file that the program itself writes, in words: nobody edits those, so a path and a word do. */
import type { z } from 'zod';
import { printable } from '../engine/printable.js';

/** `houses.0.first_wrong_h: expected object, found nothing` */
export function faultWords({ path, message }: z.core.$ZodIssue): string {
  const where = printable(path.join('.'), 120);
  const words = message
    .replace('Invalid input: ', '')
    .replace(/^Unrecognized key/, 'unknown key')
    .replace('received undefined', 'found nothing')
    .replace('received', 'found');
  return `${where === '' ? '' : `${where}: `}${printable(words, 200)}`;
}

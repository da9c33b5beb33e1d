/** A heading of the owner's own, on the pages of runs and of studies alike. */
import type { Heading } from '../scenario/heading.js';
import { named } from './words.js';

/** Rows of the title block, the scenario's or the study's name among them where it is no longer the title. */
export function headingRows({ title, prepared_by }: Heading, what: string, name: string): [string, string][] {
  return [
    ...(title === undefined ? [] : [[what, named(name)] as [string, string]]),
    ...(prepared_by === undefined ? [] : [['Prepared by', named(prepared_by)] as [string, string]]),
  ];
}

/** `TITLE · prepared by WHO · `, what there is of it, to stand before the rest of a footer. */
export function headingWords({ title, prepared_by }: Heading): string {
  return `${title === undefined ? '' : `${named(title)} · `}${prepared_by === undefined ? '' : `prepared by ${named(prepared_by)} · `}`;
}

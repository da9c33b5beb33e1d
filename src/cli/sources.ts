/** `jambeam sources`: every number the simulation assumes about the world, and where it comes from. */
import type { Figure } from '../engine/figure.js';
import { figureValueText } from '../engine/figure.js';
import { allFigures } from '../simulate/sources.js';
import { type Io, jsonText } from './io.js';
import { folded } from './lines.js';

export function sourcesCommand({ json = false }: { readonly json?: boolean }, io: Io): void {
  const figures = allFigures();
  io.out(
    json ? jsonText(figures) : `${figures.map((figure) => figureText(figure, io)).join('\n')}\n${tallied(figures)}`,
  );
}

function figureText({ id, value, unit, used_in, citation, status, note }: Figure, io: Io): string {
  return [
    io.paint.bold(id),
    folded(`${figureValueText(value)}  [${unit}]`, '    ').trimEnd(),
    folded(`used in: ${used_in}`, '    ').trimEnd(),
    folded(`${status}: ${citation}`, '    ').trimEnd(),
    ...(note === undefined ? [] : [folded(`note: ${note}`, '    ').trimEnd()]),
    '',
  ].join('\n');
}

/** How many figures stand on what: a reader's first question. */
function tallied(figures: readonly Figure[]): string {
  const counts = new Map<string, number>();
  for (const { status } of figures) counts.set(status, (counts.get(status) ?? 0) + 1);
  const parts = [...counts].map(([status, count]) => `${count} ${status}`);
  return `${figures.length} figures: ${parts.join(', ')}\n`;
}

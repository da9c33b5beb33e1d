/** The numbers behind a chart, as a table beneath it. */
import type { LiveChart } from '../report/charts/live.js';
import { element } from './elements.js';
import { shown } from './numbers.js';

/** Rows in the page; the CSV has all. */
const MOST = 400;

export function tableOf({ title, table: { columns, rows } }: LiveChart): HTMLElement {
  const head = columns.map((column) => element('th', { text: column.title, attributes: { scope: 'col' } }));
  const body = rows.slice(0, MOST).map((row) =>
    element(
      'tr',
      {},
      row.map((cell, c) =>
        c === 0
          ? element('th', { text: shown(cell), attributes: { scope: 'row' } })
          : element('td', { class: typeof cell === 'string' ? '' : 'num', text: shown(cell) }),
      ),
    ),
  );
  const left = rows.length - body.length;
  const caption = element('caption', {
    text: left > 0 ? `${title}. The first ${body.length} of ${rows.length} rows; the CSV has all.` : title,
  });
  const table = element('table', { class: 'behind' }, [
    caption,
    element('thead', {}, [element('tr', {}, head)]),
    element('tbody', {}, body),
  ]);
  const attributes = { role: 'region', tabindex: 0, 'aria-label': `Numbers of: ${title}` };
  return element('div', { class: 'scroll', attributes }, [table]);
}

/** An answer as the reader gets it: a sentence, the numbers beside the report's, the line for the terminal. */
import type { AskData, AskDoor } from '../report/ask/ask-data.js';
import { estimateWords } from '../report/words.js';
import type { Estimate } from '../score/metrics-schema.js';
import type { Asked } from './ask-form.js';
import type { Answer, Compared } from './ask-messages.js';
import { element } from './elements.js';

export function told(found: Answer, { door, changes, command, ownLogic }: Asked, data: AskData): Node[] {
  if (found.kind === 'refused')
    return [
      element('p', { class: 'refused', text: 'That can’t be built, so it was not simulated:' }),
      element(
        'ul',
        {},
        found.reasons.map((text) => element('li', { text })),
      ),
    ];
  const rows: [string, Compared, Estimate][] = [[`door ${door.name}`, found.door, door.wrong_per_100]];
  if (data.doors.length > 1) rows.push(['all doors', found.house, data.wrong_per_100]);
  const cell = (e: Estimate | undefined): HTMLElement => {
    if (e === undefined) return element('td', { class: 'num', text: '–' });
    const { value, range, note } = estimateWords(e);
    return element('td', { class: 'num' }, [
      element('b', { text: value ?? 'not known' }),
      ' ',
      element('small', { text: range ?? note ?? '' }),
    ]);
  };
  const head = [
    'wrong per 100 crossings',
    'your what-if',
    'the report, same replicates',
    'difference, pair by pair',
    `the report, all ${data.replicates}`,
  ];
  const table = element('table', {}, [
    element('caption', {
      text: `Your own what-if, not part of the report: ${extent(found.replicates)} of ${data.replicates}`,
    }),
    element('thead', {}, [
      element(
        'tr',
        {},
        head.map((text) => element('th', { text, attributes: { scope: 'col' } })),
      ),
    ]),
    element(
      'tbody',
      {},
      rows.map(([name, one, whole]) =>
        element('tr', {}, [
          element('th', { text: name, attributes: { scope: 'row' } }),
          cell(one.found),
          cell(one.reported),
          cell(one.change),
          cell(whole),
        ]),
      ),
    ),
  ]);
  return [
    element('p', { class: 'said', text: sentence(found.door, door, changes) }),
    element(
      'div',
      { class: 'scroll', attributes: { role: 'region', tabindex: 0, 'aria-label': 'Your what-if in numbers' } },
      [table],
    ),
    element('p', {
      class: 'key',
      text:
        ownLogic === null
          ? 'The same on the command line:'
          : `The same on the command line, where the logic ${ownLogic} is one of several:`,
    }),
    element('pre', { text: command, attributes: { tabindex: 0, 'aria-label': 'Command line' } }),
  ];
}

const extent = (n: number): string => (n === 1 ? 'the first replicate' : `the first ${n} replicates`);

function sentence({ found, change }: Compared, door: AskDoor, changes: readonly string[]): string {
  const { value, range } = estimateWords(found);
  const number = `${value ?? 'an unknown number'}${range === null ? '' : ` (${range})`} wrong per 100 crossings at door ${door.name}`;
  if (changes.length === 0) return `Nothing is changed yet: ${number}, as the report found in these replicates.`;
  const low = change?.low ?? null;
  const high = change?.high ?? null;
  const judged =
    low === null || high === null
      ? ''
      : low > 0
        ? ' That is worse than reported.'
        : high < 0
          ? ' That is better than reported.'
          : ' With so few replicates it can’t be told from what is reported.';
  return `With ${changes.join(' and ')}: ${number}.${judged}`;
}

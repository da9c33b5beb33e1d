/**
 * Ask it something else: the reader moves the beams of one door, or gives it another logic, and the same people are
 * simulated again in a worker. What comes out is marked as theirs and stands beside what the report says of the same crowds.
 */
import type { AskData, AskDoor } from '../report/ask/ask-data.js';
import { BLOCK_ID } from '../report/carried/block-id.js';
import type { Carried } from '../report/carried/schema.js';
import { shellWord } from '../report/shell-word.js';
import { decimal, estimateWords, metres } from '../report/words.js';
import type { Estimate } from '../score/metrics-schema.js';
import type { Answer, Compared, Question } from './ask-messages.js';
import { element } from './elements.js';
import { unpacked } from './unpack.js';

/** After the last change, before the answer is begun, ms. */
const WAIT_MS = 120;
/** Replicates to choose from, as far as the report has them. */
const EXTENTS = [4, 8, 20];
const STEP_M = { height: 0.01, spacing: 0.005 } as const;
const LOWEST_M = 0.02;

export async function letAsk(section: HTMLElement, data: AskData): Promise<void> {
  section.hidden = false;
  document.querySelector('nav li[hidden]')?.removeAttribute('hidden');
  const script = URL.createObjectURL(new Blob([await unpacked('packed-ask')], { type: 'text/javascript' }));
  const form = new Form(data, JSON.parse(document.getElementById(BLOCK_ID)!.textContent) as Carried);
  const answer = element('div', { class: 'found', attributes: { 'aria-live': 'polite' } });
  section.append(form.root, answer);
  const worker = new Worker(script);
  let asked: Asked;
  let number = 0;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const ask = (): void => {
    clearTimeout(waiting);
    answer.setAttribute('aria-busy', 'true');
    if (answer.childElementCount === 0) answer.append(element('p', { class: 'key', text: 'Simulating …' }));
    number++;
    waiting = setTimeout(() => {
      asked = form.question(number);
      worker.postMessage(asked.question);
    }, WAIT_MS);
  };
  worker.onmessage = ({ data: found }: MessageEvent<Answer>) => {
    // An answer to what was asked before.
    if (found.number !== number) return;
    answer.replaceChildren(...told(found, asked, data));
    if (found.kind === 'refused' || found.replicates === asked.question.replicates) answer.removeAttribute('aria-busy');
  };
  worker.onerror = ({ message }) => {
    answer.replaceChildren(element('p', { class: 'refused', text: `This browser could not simulate it: ${message}` }));
    answer.removeAttribute('aria-busy');
  };
  // What is in the report first, once it comes into view: the worker is warm then.
  const seen = new IntersectionObserver(
    (entries) => {
      if (!entries.some(({ isIntersecting }) => isIntersecting)) return;
      seen.disconnect();
      ask();
    },
    { rootMargin: '600px' },
  );
  seen.observe(section);
  form.root.addEventListener('input', ask);
  form.root.addEventListener('reset', () =>
    // Fields go back after this.
    setTimeout(() => {
      form.asReported();
      ask();
    }),
  );
  form.root.addEventListener('submit', (event) => event.preventDefault());
}

interface Asked {
  readonly question: Question;
  readonly door: AskDoor;
  /** 'height 1.20 m instead of 0.95 m'. */
  readonly changes: readonly string[];
  readonly command: string;
  /** A logic of the scenario’s own that is not the headline’s: the command’s summary tells of another. */
  readonly ownLogic: string | null;
}

/** The fields. */
class Form {
  readonly root = element('form', { class: 'ask' });
  private readonly doors: HTMLSelectElement;
  private readonly logics: HTMLSelectElement;
  private readonly extent: HTMLSelectElement;
  private readonly extents: readonly number[];
  private readonly height = slider('Height of its beams', STEP_M.height);
  private readonly spacing = slider('Beams apart along the walk', STEP_M.spacing);

  constructor(
    private readonly data: AskData,
    private readonly carried: Carried,
  ) {
    this.doors = choice(data.doors.map(({ name }) => name));
    this.logics = choice(data.logics.map(({ name }) => name));
    this.extents = [...new Set(EXTENTS.map((n) => Math.min(n, data.replicates)))];
    this.extent = choice(this.extents.map((n) => `the first ${n}`));
    const fields = [
      ...(data.doors.length > 1 ? [field('Door', this.doors)] : []),
      this.height.root,
      this.spacing.root,
      field('Logic', this.logics),
      field('Replicates', this.extent),
      element('button', { text: 'As reported', attributes: { type: 'reset' } }),
    ];
    this.root.append(...fields);
    this.doors.addEventListener('input', () => this.door());
    this.asReported();
  }

  asReported(): void {
    this.doors.selectedIndex = 0;
    this.extent.selectedIndex = Math.min(1, this.extents.length - 1);
    this.logics.selectedIndex = Math.max(
      0,
      this.data.logics.findIndex(({ name }) => name === this.data.headline),
    );
    this.door();
  }

  /** Fields as the chosen door is in the report. */
  private door(): void {
    const { height_m, spacing_m, opening_m, depth_m } = this.data.doors[this.doors.selectedIndex]!;
    this.height.be(height_m, LOWEST_M, opening_m);
    this.spacing.be(spacing_m, STEP_M.spacing, Math.max(depth_m, spacing_m ?? 0));
  }

  question(number: number): Asked {
    const { data } = this;
    const d = this.doors.selectedIndex;
    const door = data.doors[d]!;
    const logic = data.logics[this.logics.selectedIndex]!;
    const replicates = this.extents[this.extent.selectedIndex]!;
    const [height_m, spacing_m] = [this.height.value(), this.spacing.value()];
    const sets: string[] = [];
    const changes: string[] = [];
    if (height_m !== null && height_m !== door.height_m) {
      sets.push(`${door.path}.beams.*.height_m=${height_m}`);
      changes.push(`its beams ${metres(height_m)} high instead of ${metres(door.height_m!)}`);
    }
    if (spacing_m !== null && spacing_m !== door.spacing_m) {
      sets.push(`${door.path}.pair.spacing_m=${spacing_m}`);
      changes.push(
        `${decimal(spacing_m * 100, 1)}\u00a0cm apart instead of ${decimal(door.spacing_m! * 100, 1)}\u00a0cm`,
      );
    }
    if (logic.name !== data.headline) changes.push(`the logic ${logic.name} instead of ${data.headline}`);
    const words = ['run', 'report.html', ...sets.flatMap((set) => ['--set', shellWord(set)])];
    if (logic.option !== null) words.push('--logic', shellWord(logic.option));
    return {
      question: {
        number,
        scenario: this.carried.scenario,
        tables: this.carried.tables,
        sets,
        logic: logic.choice,
        door: d,
        replicates,
        reported: data.reported,
      },
      door,
      changes,
      command: `jambeam ${words.join(' ')} --replicates ${replicates}`,
      ownLogic: logic.option === null && logic.name !== data.headline ? logic.name : null,
    };
  }
}

function told(found: Answer, { door, changes, command, ownLogic }: Asked, data: AskData): Node[] {
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

function choice(names: readonly string[]): HTMLSelectElement {
  return element(
    'select',
    {},
    names.map((text) => element('option', { text })),
  );
}

function field(name: string, control: HTMLElement): HTMLElement {
  return element('label', {}, [element('span', { text: name }), control]);
}

interface Slider {
  readonly root: HTMLElement;
  /** Null where there is nothing to move. */
  value(): number | null;
  be(value: number | null, least: number, most: number): void;
}

/** A slider and a field for the same number, in metres. */
function slider(name: string, step: number): Slider {
  const range = element('input', { attributes: { type: 'range', step, 'aria-label': `${name}, metres` } });
  const typed = element('input', { attributes: { type: 'number', step, 'aria-label': `${name}, metres, typed` } });
  const root = element('div', { class: 'field' }, [element('span', { text: `${name}, m` }), range, typed]);
  range.addEventListener('input', () => (typed.value = range.value));
  typed.addEventListener('input', () => (range.value = typed.value));
  let there = false;
  return {
    root,
    value: () => (there && typed.value !== '' ? typed.valueAsNumber : null),
    be(value, least, most) {
      there = value !== null;
      root.hidden = !there;
      for (const input of [range, typed]) {
        input.min = String(least);
        input.max = String(most);
        // A value off the grid stays what it is.
        input.step = value !== null && Math.abs(value / step - Math.round(value / step)) > 1e-9 ? 'any' : String(step);
        input.value = String(value ?? least);
      }
    },
  };
}

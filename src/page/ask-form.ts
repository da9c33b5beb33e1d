/** The fields of a question, and what is asked by them. */
import type { AskData, AskDoor } from '../report/ask/ask-data.js';
import type { Carried } from '../report/carried/schema.js';
import { shellWord } from '../report/shell-word.js';
import { decimal, metres } from '../report/words.js';
import type { Question } from './ask-messages.js';
import { element } from './elements.js';

/** Replicates to choose from, as far as the report has them. */
const EXTENTS = [4, 8, 20];
const STEP_M = { height: 0.01, spacing: 0.005 } as const;
const LOWEST_M = 0.02;

export interface Asked {
  readonly question: Question;
  readonly door: AskDoor;
  /** 'height 1.20 m instead of 0.95 m'. */
  readonly changes: readonly string[];
  readonly command: string;
  /** A logic of the scenario’s own that is not the headline’s: the command’s summary tells of another. */
  readonly ownLogic: string | null;
}

export class AskForm {
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

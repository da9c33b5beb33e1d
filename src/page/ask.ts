/**
 * Ask it something else: the reader moves the beams of one door, or gives it another logic, and the same people are
 * simulated again in a worker. What comes out is marked as theirs and stands beside what the report says of the same crowds.
 */
import type { AskData } from '../report/ask/ask-data.js';
import { BLOCK_ID } from '../report/carried/block-id.js';
import type { Carried } from '../report/carried/schema.js';
import { told } from './ask-answer.js';
import { AskForm, type Asked } from './ask-form.js';
import type { Answer } from './ask-messages.js';
import { element } from './elements.js';
import { unpacked } from './unpack.js';

/** After the last change, before the answer is begun, ms. */
const WAIT_MS = 120;

export async function letAsk(section: HTMLElement, data: AskData): Promise<void> {
  section.hidden = false;
  document.querySelector('nav li[hidden]')?.removeAttribute('hidden');
  const script = URL.createObjectURL(new Blob([await unpacked('packed-ask')], { type: 'text/javascript' }));
  const form = new AskForm(data, JSON.parse(document.getElementById(BLOCK_ID)!.textContent) as Carried);
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

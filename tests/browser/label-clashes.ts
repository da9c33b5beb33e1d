/** Labels of charts beyond their picture, and pairs that share more than a hair, in a page as it is shown. */
import type { Page } from 'playwright-core';

const CLASHES = `[...document.querySelectorAll('.chart svg')].flatMap((svg) => {
        const frame = svg.getBoundingClientRect();
        if (frame.width === 0) return [];
        const labels = [...svg.querySelectorAll('text')].map((t) => ({ text: svg.querySelector('title').textContent + ': ' + t.textContent, box: t.getBoundingClientRect() })).filter(({ box }) => box.width > 0);
        const over = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.4 * Math.min(a.height, b.height);
        return [
          ...labels.filter(({ box }) => box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 1 || box.bottom > frame.bottom + 1).map(({ text }) => text + ' is cut'),
          ...labels.flatMap((a, i) => labels.slice(i + 1).filter((b) => over(a.box, b.box)).map((b) => a.text + ' / ' + b.text)),
        ];
      })`;

export const labelClashes = (page: Page): Promise<string[]> => page.evaluate(CLASHES);

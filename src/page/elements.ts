/** Elements made by hand: text goes in as text, so nothing that a user wrote can become markup. */

type Child = Node | string | null;

interface Given {
  readonly class?: string;
  readonly text?: string;
  readonly attributes?: Readonly<Record<string, string | number>>;
  readonly on?: Readonly<Record<string, (event: Event) => void>>;
}

/** @example element('button', { text: 'all', attributes: { type: 'button' } }) */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  { class: name, text, attributes = {}, on = {} }: Given = {},
  children: readonly Child[] = [],
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  if (name !== undefined) made.className = name;
  if (text !== undefined) made.textContent = text;
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  for (const [event, heard] of Object.entries(on)) made.addEventListener(event, heard);
  made.append(...children.filter((child) => child !== null));
  return made;
}

/** A button that does something in the page. */
export function button(
  text: string,
  pressed: () => void,
  attributes: Readonly<Record<string, string>> = {},
): HTMLButtonElement {
  return element('button', { text, attributes: { type: 'button', ...attributes }, on: { click: pressed } });
}

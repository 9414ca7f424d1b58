/** Making elements. Text only ever goes in as text. */

type Child = Node | string | undefined;

export interface Made {
  readonly class?: string;
  readonly id?: string;
  readonly attrs?: Readonly<Record<string, string | number | undefined>>;
  readonly on?: Readonly<Partial<Record<keyof HTMLElementEventMap, (event: Event) => void>>>;
}

/** An element of the page. */
export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  made: Made = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  return dressed(document.createElement(tag), made, children);
}

/** An element of a drawing. */
export function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  made: Made = {},
  ...children: readonly Child[]
): SVGElementTagNameMap[K] {
  return dressed(document.createElementNS('http://www.w3.org/2000/svg', tag), made, children);
}

/** A button that says what it does. */
export function button(text: string, press: () => void, made: Made = {}): HTMLButtonElement {
  const all = {
    ...made,
    attrs: { type: 'button', ...made.attrs },
    on: { ...made.on, click: press },
  };
  return el('button', all, text);
}

/** Writes only what differs, so that nothing is laid out for nothing. */
export function write(node: Node, text: string): void {
  if (node.textContent !== text) node.textContent = text;
}

/** Sets an attribute only where it differs; undefined takes it away. */
export function mark(element: Element, name: string, value: string | undefined): void {
  if (value === undefined) element.removeAttribute(name);
  else if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

let count = 0;

/** An id that no other element has. */
export function newId(): string {
  return `b${++count}`;
}

function dressed<E extends Element>(element: E, made: Made, children: readonly Child[]): E {
  if (made.class !== undefined) element.setAttribute('class', made.class);
  if (made.id !== undefined) element.id = made.id;
  for (const [name, value] of Object.entries(made.attrs ?? {})) {
    if (value !== undefined) element.setAttribute(name, String(value));
  }
  for (const [name, heard] of Object.entries(made.on ?? {})) {
    if (heard) element.addEventListener(name, heard);
  }
  element.append(...children.filter((child) => child !== undefined));
  return element;
}

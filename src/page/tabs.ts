/** Panels behind tabs: one shows at a time; arrow keys go from tab to tab. */

import { button, el, mark, newId } from './dom.js';
import type { Panel } from './page.js';

export interface Tab {
  readonly name: string;
  /** Made when the tab is first opened. */
  readonly panels: () => Panels;
}

type Panels = readonly (readonly [heading: string, panel: Panel])[];

export interface Tabs extends Panel {
  open(name: string): void;
}

/** @param opened is told which tab shows. */
export function tabsOf(tabs: readonly Tab[], opened: (name: string) => void): Tabs {
  let current = 0;
  const shown = new Map<number, Panels>();
  const made = tabs.map(({ name }, i) => {
    const [tabId, panelId] = [newId(), newId()];
    const press = button(name, () => open(i), {
      id: tabId,
      attrs: { role: 'tab', 'aria-controls': panelId },
      on: { keydown: (event) => key(event as KeyboardEvent) },
    });
    const body = el('div', {
      id: panelId,
      class: 'tab-body',
      attrs: { role: 'tabpanel', 'aria-labelledby': tabId },
    });
    return { press, body };
  });
  const panelsOf = (i: number): Panels => {
    let panels = shown.get(i);
    if (!panels) {
      shown.set(i, (panels = tabs[i]!.panels()));
      for (const [heading, panel] of panels) {
        made[i]!.body.append(...(heading === '' ? [] : [el('h2', {}, heading)]), panel.element);
      }
    }
    return panels;
  };
  const open = (i: number) => {
    current = i;
    made.forEach(({ press, body }, n) => {
      mark(press, 'aria-selected', String(n === i));
      mark(press, 'tabindex', n === i ? '0' : '-1');
      body.hidden = n !== i;
    });
    opened(tabs[i]!.name);
    update();
  };
  const key = (event: KeyboardEvent) => {
    const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    const ends = { Home: 0, End: tabs.length - 1 }[event.key];
    const next = by === undefined ? ends : (current + by + tabs.length) % tabs.length;
    if (next === undefined) return;
    event.preventDefault();
    open(next);
    made[next]!.press.focus();
  };
  const update = () => {
    for (const [, panel] of panelsOf(current)) panel.update();
  };
  const element = el(
    'section',
    { class: 'panel tabs', attrs: { 'aria-label': 'What to do' } },
    el('div', { class: 'tab-row', attrs: { role: 'tablist' } }, ...made.map(({ press }) => press)),
    ...made.map(({ body }) => body),
  );
  return {
    element,
    update,
    open: (name) =>
      open(
        Math.max(
          0,
          tabs.findIndex((tab) => tab.name === name),
        ),
      ),
  };
}

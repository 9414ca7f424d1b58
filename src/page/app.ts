/** The page put together: panels about one session, redrawn as it changes and measured whole once it rests. */

import type { Problem } from '../model/text/problem.js';
import { readScenario } from '../model/read.js';
import type { Scenario } from '../model/scenario.js';
import { clean } from '../words/text.js';
import { CAUTION_WORDS, pairWords, spare } from '../words/words.js';
import { addressOf, fromAddress } from './address.js';
import { Announcer } from './announce.js';
import type { Bench } from './bench.js';
import { button, el, write } from './dom.js';
import { PAGE_LOOK, pairKey } from './page.js';
import type { Page } from './page.js';
import { panelTabs } from './panel-tabs.js';
import { axlePanel } from './panels/axle.js';
import { gapsPanel } from './panels/gaps.js';
import { problemList } from './panels/problems.js';
import type { Keeping } from './panels/save.js';
import { verdictPanel } from './panels/verdict.js';
import { Session } from './session.js';
import { carriedOver } from './state.js';
import type { Looking } from './state.js';
import { tabsOf } from './tabs.js';
import { themeButtons } from './themes.js';
import { LargeView } from './views/large-view.js';

/** Milliseconds without a change after which the engine is at rest. */
const REST = 140;

export interface AppParts {
  readonly name: string;
  readonly bench: Bench;
  readonly keeping: Omit<Keeping, 'saved' | 'tell' | 'told'>;
}

export class App {
  readonly element = el('div', { class: 'app' });
  private readonly announcer = new Announcer();
  private readonly problems = el('div', { class: 'file', attrs: { 'aria-live': 'polite' } });
  private readonly body = el('div', { class: 'body' });
  private session: Session | undefined;
  private drawing: { update(): void; dress(): void; reveal(): void } | undefined;
  private chosen: string | undefined;
  private tab = '';
  private told = '';
  private frame = 0;
  private timer = 0;
  private written = '';

  constructor(private readonly parts: AppParts) {
    this.element.append(this.problems, this.body, this.announcer.element);
    window.addEventListener('hashchange', () => this.addressed());
    document.addEventListener('keydown', (event) => this.key(event));
  }

  /** Reads the file's text; what is wrong with it is shown, and the last scenario that was read well stays. */
  read(text: string): void {
    const { scenario, problems } = readScenario(text, 'auto');
    const isKept = this.session !== undefined;
    this.tell(problems, isKept);
    if (!scenario) return;
    if (this.session?.text === text) return;
    const state = this.session
      ? carriedOver(this.session.scenario, scenario, this.session.state)
      : fromAddress(scenario, window.location.hash);
    this.parts.bench.drop();
    this.session = new Session(scenario, text, state);
    this.build(this.session);
    if (isKept) this.announcer.say('The file was read again');
  }

  /** The file cannot be read any more: what it held before stays. */
  lost(why: string): void {
    const problem = { code: 'unreadable', severity: 'error', message: why, path: [] } as const;
    this.tell([problem], this.session !== undefined);
  }

  private tell(problems: readonly Problem[], isKept: boolean): void {
    const list = problems.length > 0 ? [problemList(this.parts.name, problems, isKept)] : [];
    this.problems.replaceChildren(...list);
  }

  private build(session: Session): void {
    const page = this.pageOf(session);
    const { scenario } = session;
    const view = new LargeView(page);
    const verdict = verdictPanel(page);
    const axle = axlePanel(page);
    const gaps = gapsPanel(page);
    const keeping = this.keeping();
    const tabs = tabsOf(panelTabs(page, keeping), (name) => (this.tab = name));
    const undo = button('Undo', () => this.step(() => session.undo(), 'Undone'));
    const redo = button('Redo', () => this.step(() => session.redo(), 'Done again'));
    const head = header(scenario, [verdict.element, axle.element], [undo, redo], () =>
      this.drawing?.dress(),
    );
    this.drawing = {
      update: () => {
        undo.disabled = !session.canUndo;
        redo.disabled = !session.canRedo;
        for (const panel of [verdict, axle, view, gaps, tabs]) panel.update();
      },
      dress: () => view.dress(),
      reveal: () => view.reveal(),
    };
    this.body.replaceChildren(
      head,
      el(
        'main',
        {},
        el('div', { class: 'seen' }, view.element, gaps.element),
        el('div', { class: 'done' }, tabs.element),
      ),
      el('footer', {}, CAUTION_WORDS),
    );
    tabs.open(this.tab);
    this.rest();
  }

  private keeping(): Keeping {
    const keeping = {
      ...this.parts.keeping,
      saved: (text: string) => this.read(text),
      tell: (words: string) => {
        this.told = words;
        this.drawing?.update();
      },
    };
    return Object.defineProperties(keeping, {
      told: { get: () => this.told },
    }) as typeof keeping & Pick<Keeping, 'told'>;
  }

  private pageOf(session: Session): Page {
    const { scenario, text } = session;
    const telling = { scenario, units: scenario.units, look: PAGE_LOOK };
    const page = {
      scenario,
      text,
      telling,
      bench: this.parts.bench,
      change: (next: Parameters<Page['change']>[0], by = '') => {
        session.change(next, by);
        this.moved();
      },
      look: (looking: Looking) => {
        session.look(looking);
        this.moved();
      },
      ended: () => session.ended(),
      choose: (pair: string | undefined) => {
        this.chosen = pair;
        this.drawing?.update();
        if (pair !== undefined) this.drawing?.reveal();
        const { worst, standing } = session.measured;
        const one = (standing?.readings ?? worst).find((reading) => pairKey(reading) === pair);
        if (one) {
          this.announcer.say(`${pairWords(one, telling)}: ${spare(one.margin, telling.units)}`);
        }
      },
      say: (words: string) => this.announcer.say(words),
      measure: (place: Parameters<Page['measure']>[0]) => session.measure(place),
    };
    return Object.defineProperties(page, {
      state: { get: () => session.state },
      measured: { get: () => session.measured },
      chosen: { get: () => this.chosen },
    }) as typeof page & Pick<Page, 'state' | 'measured' | 'chosen'>;
  }

  private step(go: () => void, words: string): void {
    go();
    this.moved();
    this.announcer.say(words);
  }

  /** Draws once a frame at most, and measures all of it once nothing has moved for a while. */
  private moved(): void {
    this.element.removeAttribute('data-rest');
    window.clearTimeout(this.timer);
    this.timer = window.setTimeout(() => this.rest(), REST);
    if (this.frame !== 0) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      this.session?.follow();
      this.drawing?.update();
    });
  }

  private rest(): void {
    const { session } = this;
    if (!session) return;
    session.settle();
    this.drawing?.update();
    this.element.setAttribute('data-rest', '');
    const address = addressOf(session.scenario, session.state);
    const before = this.written;
    this.written = address;
    if (window.location.hash !== `#${address}`) {
      try {
        window.history.replaceState(null, '', `#${address}`);
      } catch {
        window.location.replace(`#${address}`);
      }
    }
    if (before === '' || before === address) return;
    const { standing } = session.measured;
    const telling = { scenario: session.scenario, units: session.scenario.units, look: PAGE_LOOK };
    const tight = standing?.readings[0];
    if (tight) {
      this.announcer.say(`${spare(tight.margin, telling.units)}: ${pairWords(tight, telling)}`);
    }
  }

  private addressed(): void {
    const { session } = this;
    const address = window.location.hash.replace(/^#/, '');
    if (!session || address === this.written) return;
    session.change(fromAddress(session.scenario, address), '');
    this.moved();
  }

  private key(event: KeyboardEvent): void {
    const { session } = this;
    if (!session || !(event.ctrlKey || event.metaKey) || event.altKey) return;
    if (event.target instanceof HTMLInputElement && event.target.type === 'text') return;
    const key = event.key.toLowerCase();
    const isRedo = key === 'y' || (key === 'z' && event.shiftKey);
    if (!isRedo && key !== 'z') return;
    event.preventDefault();
    if (isRedo) this.step(() => session.redo(), 'Done again');
    else this.step(() => session.undo(), 'Undone');
  }
}

function header(
  scenario: Scenario,
  verdict: readonly HTMLElement[],
  steps: readonly HTMLElement[],
  dressed: () => void,
): HTMLElement {
  const title = el('h1', {});
  write(title, clean(scenario.title, PAGE_LOOK));
  document.title = `${title.textContent ?? ''} - Berth`;
  return el(
    'header',
    {},
    title,
    ...verdict,
    el('div', { class: 'steps', attrs: { role: 'group', 'aria-label': 'History' } }, ...steps),
    themeButtons(dressed),
  );
}

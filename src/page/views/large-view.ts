/** The one large view: which way it looks, the rule along its edges, the engine to be dragged, the pair marked. */

import { sceneOf } from '../../drawings/scene.js';
import type { Scene } from '../../drawings/scene.js';
import { onPaper, viewOf } from '../../drawings/view.js';
import type { Point2, ViewName } from '../../drawings/view.js';
import { witnessFinder } from '../../drawings/witness.js';
import type { WitnessFinder } from '../../drawings/witness.js';
import type { Position, Vec3 } from '../../model/scenario.js';
import { el } from '../dom.js';
import { cutScenario } from '../live.js';
import { pairKey } from '../page.js';
import type { Page, Panel } from '../page.js';
import { heldInside } from '../state.js';
import { onMark, stepsOf } from '../steps.js';
import { ways } from './compass.js';
import { listenForDrags } from './dragging.js';
import { lookButtons } from './look-buttons.js';
import { NudgePad } from './nudge-pad.js';
import { PlanView } from './plan-view.js';
import type { Frame } from './plan-view.js';
import { RULE, RuleEdges } from './rule-edges.js';
import { TurnView } from './turn-view.js';

const CLOSER = [1, 1.6, 2.6];

export class LargeView implements Panel {
  readonly element: HTMLElement;
  private readonly stage: HTMLElement;
  private readonly plans = {
    side: new PlanView('side'),
    top: new PlanView('top'),
    front: new PlanView('front'),
  };
  private turn: TurnView | undefined;
  private readonly rule = new RuleEdges();
  private readonly looks: ReturnType<typeof lookButtons>;
  private readonly pad: NudgePad;
  private scene: Scene = { parts: [] };
  private made = '';
  private shown = '';
  private finder: WitnessFinder | undefined;
  private size = { width: 0, height: 0 };
  private closer = 0;
  private from: Position | undefined;
  private framed: { readonly key: string; readonly frame?: Frame } = { key: '' };

  constructor(private readonly page: Page) {
    this.stage = el('div', {
      class: 'stage',
      attrs: {
        tabindex: 0,
        role: 'application',
        'aria-label':
          'The engine in its bay. Arrow keys move it by a step, with Shift by a larger one; Page Up and Page Down pitch it.',
      },
      on: { keydown: (event) => this.key(event as KeyboardEvent) },
    });
    this.looks = lookButtons(page, () => {
      this.closer = (this.closer + 1) % CLOSER.length;
      this.update();
    });
    this.pad = new NudgePad(page, (across, up) => this.turn?.turn(across, up));
    this.element = el(
      'section',
      { class: 'large', attrs: { 'aria-label': 'View' } },
      this.looks.element,
      this.stage,
      this.pad.element,
    );
    listenForDrags(this.stage, {
      takes: (target) => target.closest('.engine') !== null,
      moved: (across, down) => this.dragged(across, down),
      ended: () => {
        this.from = undefined;
        page.ended();
      },
      touched: (target) => this.touched(target),
    });
    new ResizeObserver(() => this.resized()).observe(this.stage);
  }

  /** The colours of the page have changed. */
  dress(): void {
    this.turn?.dress();
  }

  /** Brings the view back in sight, for a pair that was touched far below it. */
  reveal(): void {
    const { top, bottom } = this.stage.getBoundingClientRect();
    const isSeen = bottom > window.innerHeight / 3 && top < (window.innerHeight * 2) / 3;
    if (!isSeen) this.stage.scrollIntoView({ block: 'center' });
  }

  update(): void {
    const { state, scenario } = this.page;
    this.looks.update(this.closer);
    this.pad.update();
    const key = JSON.stringify([state.options, state.depths]);
    if (key !== this.made) {
      this.made = key;
      this.finder = undefined;
      this.scene = sceneOf(scenario, state.options, state.depths);
      this.shown = '';
    }
    if (state.looking === 'turn') this.updateTurn();
    else this.updatePlan(state.looking);
  }

  private updateTurn(): void {
    this.turn ??= new TurnView();
    const { state, scenario } = this.page;
    if (this.shown !== 'turn') {
      const middle = heldInside(scenario, state.position);
      const block = middleOf(this.scene);
      this.stage.replaceChildren(this.turn.element);
      this.turn.show(
        this.scene,
        [middle.setback + block[0], middle.offset, middle.height + block[2]],
        900,
      );
      this.shown = 'turn';
      this.turn.resize(this.size.width, this.size.height);
    }
    this.turn.choose(this.pair());
    this.turn.place(state.position);
  }

  private updatePlan(name: 'side' | 'top' | 'front'): void {
    const plan = this.plans[name];
    if (this.shown !== name) {
      plan.show(this.scene);
      this.stage.replaceChildren(plan.element, this.rule.element);
      this.shown = name;
    }
    const frame = this.frame();
    if (!frame) return;
    this.rule.show(this.page.scenario, name, frame);
    plan.place(this.page.state.position, frame);
    plan.choose(this.pair());
    this.tag(plan, frame);
  }

  private tag(plan: PlanView, frame: Frame): void {
    const { measured, chosen, state } = this.page;
    const isAtRest = measured.standing !== undefined;
    const found = measured.worst.flatMap((one, i) => {
      const isChosen = pairKey(one) === chosen;
      // While it moves, only the pair that was asked for is followed.
      if (!isAtRest && !isChosen) return [];
      this.finder ??= this.made === '' ? undefined : this.newFinder();
      const witness = this.finder?.({ ...one, fixed: false, atRest: 0 }, state.position);
      const at = witness?.inUse ?? witness?.atRest;
      return at ? [{ at, text: String(i + 1), chosen: isChosen }] : [];
    });
    const line = found.find((one) => one.chosen)?.at;
    plan.tag(
      found.map(({ at, ...rest }) => ({ ...rest, at: between(at.from, at.to) })),
      line && [line.from, line.to],
      frame,
    );
  }

  private newFinder(): WitnessFinder {
    const { scenario, set } = cutScenario(this.page.scenario, this.page.state);
    return witnessFinder(scenario, set);
  }

  private pair(): readonly string[] {
    const { measured, chosen } = this.page;
    const all = measured.standing?.readings ?? measured.worst;
    return all.find((one) => pairKey(one) === chosen)?.between ?? [];
  }

  /** The engine over all of its ranges fills the paper, so that it never leaves it. */
  private frame(): Frame | undefined {
    const { width, height } = this.size;
    const { looking } = this.page.state;
    if (width === 0 || looking === 'turn') return undefined;
    const key = [width, height, looking, this.closer, this.made].join();
    if (key === this.framed.key) return this.framed.frame;
    const { setback, offset, height: tall, pitch } = this.page.scenario.position;
    const at = (end: 'min' | 'max'): Position => ({
      setback: setback[end],
      offset: offset[end],
      height: tall[end],
      pitch: pitch[end],
    });
    const { low, high } = this.plans[looking].reach([at('min'), at('max')]);
    if (!(high[0] > low[0])) return undefined;
    const room = 1.12;
    const inner = { width: width - RULE, height: height - RULE };
    const scale =
      (CLOSER[this.closer]! *
        Math.min(inner.width / (high[0] - low[0]), inner.height / (high[1] - low[1]))) /
      room;
    const off = RULE / 2 / scale;
    const [u, v] = this.about(looking) ?? [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
    const frame: Frame = { width, height, scale, middle: [u - off, v + off] };
    this.framed = { key, frame };
    return frame;
  }

  /** Close to, the view is about the pair that was marked when it came closer. */
  private about(looking: ViewName): Point2 | undefined {
    const { measured, chosen, state } = this.page;
    const one = measured.worst.find((reading) => pairKey(reading) === chosen);
    if (this.closer === 0 || !one) return undefined;
    const witness = this.newFinder()({ ...one, fixed: false, atRest: 0 }, state.position);
    return witness && onPaper(viewOf(looking), between(witness.atRest.from, witness.atRest.to));
  }

  private resized(): void {
    const { clientWidth: width, clientHeight: height } = this.stage;
    if (width === this.size.width && height === this.size.height) return;
    this.size = { width, height };
    this.turn?.resize(width, height);
    this.update();
  }

  private dragged(across: number, down: number): void {
    const frame = this.frame();
    const { state, scenario } = this.page;
    if (!frame || state.looking === 'turn') return;
    this.from ??= state.position;
    const by = stepsOf(scenario)[0]!.length;
    const next = { ...this.from };
    const { across: u, up: v } = ways(state.looking);
    next[u.coordinate] = onMark(this.from[u.coordinate] + (u.sign * across) / frame.scale, by);
    next[v.coordinate] = onMark(this.from[v.coordinate] - (v.sign * down) / frame.scale, by);
    this.page.change({ position: heldInside(scenario, next) }, 'drag');
  }

  private touched(target: Element): void {
    const name = target.closest('[data-part]')?.getAttribute('data-part');
    if (name === null || name === undefined) return this.page.choose(undefined);
    const { standing, worst } = this.page.measured;
    const all = standing?.readings ?? worst;
    const tightest = all.find(({ between }) => between.includes(name));
    this.page.choose(tightest && pairKey(tightest));
  }

  private key(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (this.pad.key(event)) event.preventDefault();
  }
}

function between(a: Vec3, b: Vec3): Vec3 {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
}

/** The middle of the engine's parts, in its own frame. */
function middleOf(scene: Scene): Vec3 {
  let [lowX, highX, lowZ, highZ] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { side, solids } of scene.parts) {
    if (side !== 'engine') continue;
    for (const { center } of solids) {
      lowX = Math.min(lowX, center[0]!);
      highX = Math.max(highX, center[0]!);
      lowZ = Math.min(lowZ, center[2]!);
      highZ = Math.max(highZ, center[2]!);
    }
  }
  return highX >= lowX ? [(lowX + highX) / 2, 0, (lowZ + highZ) / 2] : [0, 0, 0];
}

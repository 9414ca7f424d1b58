/** The bay in three dimensions, turned with a finger, the arrow keys or buttons. Drawn only when something changes. */

import type { BufferGeometry } from 'three';
import {
  AmbientLight,
  Color,
  DirectionalLight,
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Scene as World,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { Scene } from '../../drawings/scene.js';
import type { Shape } from '../../geometry/shape.js';
import type { Position } from '../../model/scenario.js';
import { el } from '../dom.js';
import { hatched } from './hatched.js';
import { solidGeometry } from './solid-geometry.js';

interface Drawn {
  readonly name: string;
  readonly side: 'engine' | 'chassis';
  readonly mesh: Mesh<BufferGeometry, MeshLambertMaterial>;
}

/** Radians: how far a press turns the view, and how far up and down it may look. */
const PRESS = Math.PI / 12;
const STEEPEST = 1.5;
/** Kinds drawn as if of glass, since they would hide the rest. */
const GLASS = ['hood', 'inner fender', 'floor', 'tunnel', 'firewall', 'core support'];
const LEFT_OUT = ['ground'];

export class TurnView {
  readonly element = el('div', { class: 'turn' });
  private readonly world = new World();
  private readonly camera = new PerspectiveCamera(35, 1, 10, 20000);
  private readonly engine = new Group();
  private readonly chassis = new Group();
  private readonly renderer: WebGLRenderer | undefined;
  private drawn: Drawn[] = [];
  private yaw = -0.9;
  private rise = 0.5;
  private middle = new Vector3();
  private distance = 3000;
  private waiting = 0;
  private ink = new Color('black');

  constructor() {
    this.renderer = renderer();
    if (!this.renderer) {
      this.element.append(
        el(
          'p',
          { class: 'none' },
          'This browser draws nothing in three dimensions; the other views show all of it.',
        ),
      );
      return;
    }
    this.camera.up.set(0, 0, 1);
    const sun = new DirectionalLight('white', 2);
    sun.position.set(-1, -2, 3);
    this.world.add(new AmbientLight('white', 1.4), sun, this.engine, this.chassis);
    this.element.append(this.renderer.domElement);
    this.hear(this.renderer.domElement);
  }

  /** What stands, drawn anew; it is turned about `middle`, seen from so far that `radius` is in sight. */
  show(scene: Scene, middle: readonly [number, number, number], radius: number): void {
    if (!this.renderer) return;
    for (const group of [this.engine, this.chassis]) {
      group.traverse((one) => {
        if (one instanceof Mesh || one instanceof LineSegments) {
          (one.geometry as BufferGeometry).dispose();
        }
      });
      group.clear();
    }
    this.drawn = [];
    for (const { name, side, kind, solids } of scene.parts) {
      if (kind !== undefined && LEFT_OUT.includes(kind)) continue;
      const isGlass = kind !== undefined && GLASS.includes(kind);
      for (const solid of solids) this.add(name, side, solid, isGlass);
    }
    this.middle = new Vector3(...middle);
    this.distance = radius * 3.9;
    this.dress();
  }

  place({ setback, offset, height, pitch }: Position): void {
    this.engine.position.set(setback, offset, height);
    this.engine.rotation.set(0, pitch, 0);
    this.draw();
  }

  choose(pair: readonly string[]): void {
    for (const { name, side, mesh } of this.drawn) {
      const way = side === 'engine' ? 1 : -1;
      hatched(mesh.material, pair.includes(name) ? way : undefined);
    }
    this.draw();
  }

  /** Turns by so many presses to the side and up. */
  turn(across: number, up: number): void {
    this.yaw += across * PRESS;
    this.rise = Math.min(STEEPEST, Math.max(-STEEPEST, this.rise + up * PRESS));
    this.draw();
  }

  resize(width: number, height: number): void {
    if (!this.renderer || width === 0 || height === 0) return;
    this.renderer.setPixelRatio(Math.min(2, window.devicePixelRatio));
    this.renderer.setSize(width, height, false);
    this.camera.aspect = width / height;
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  /** Takes the colours of the page. */
  dress(): void {
    if (!this.renderer) return;
    const style = getComputedStyle(this.element);
    const colour = (name: string): Color =>
      new Color(style.getPropertyValue(name).trim() || 'grey');
    this.ink = colour('--ink');
    const of = { engine: colour('--engine'), chassis: colour('--chassis') };
    for (const { side, mesh } of this.drawn) mesh.material.color = of[side];
    for (const group of [this.engine, this.chassis]) {
      group.traverse((one) => {
        if (one instanceof LineSegments) (one.material as LineBasicMaterial).color = this.ink;
      });
    }
    this.draw();
  }

  private add(name: string, side: Drawn['side'], solid: Shape, isGlass: boolean): void {
    const geometry = solidGeometry(solid);
    if (!geometry) return;
    const material = new MeshLambertMaterial({
      transparent: isGlass,
      opacity: isGlass ? 0.16 : 1,
      depthWrite: !isGlass,
      polygonOffset: true,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
    });
    const mesh = new Mesh(geometry, material);
    const edges = new LineSegments(new EdgesGeometry(geometry, 25), new LineBasicMaterial());
    this[side].add(mesh, edges);
    this.drawn.push({ name, side, mesh });
  }

  private draw(): void {
    if (!this.renderer || this.waiting !== 0) return;
    this.waiting = requestAnimationFrame(() => {
      this.waiting = 0;
      const flat = Math.cos(this.rise) * this.distance;
      this.camera.position.set(
        this.middle.x + Math.sin(this.yaw) * flat,
        this.middle.y - Math.cos(this.yaw) * flat,
        this.middle.z + Math.sin(this.rise) * this.distance,
      );
      this.camera.lookAt(this.middle);
      this.renderer!.render(this.world, this.camera);
    });
  }

  private hear(canvas: HTMLCanvasElement): void {
    let from: readonly [number, number] | undefined;
    canvas.addEventListener('pointerdown', (event) => {
      from = [event.clientX, event.clientY];
      canvas.setPointerCapture(event.pointerId);
    });
    canvas.addEventListener('pointermove', (event) => {
      if (!from) return;
      this.turn((from[0] - event.clientX) / 40, (event.clientY - from[1]) / 40);
      from = [event.clientX, event.clientY];
    });
    const end = () => (from = undefined);
    canvas.addEventListener('pointerup', end);
    canvas.addEventListener('pointercancel', end);
  }
}

function renderer(): WebGLRenderer | undefined {
  try {
    return new WebGLRenderer({ antialias: true, alpha: true });
  } catch {
    return undefined;
  }
}

/** The engine under a finger: a press that moves is a drag, one that does not is a touch. */

export interface Dragging {
  /** Whether what was pressed goes along. */
  readonly takes: (target: Element) => boolean;
  /** Pixels since the press. */
  readonly moved: (across: number, down: number) => void;
  readonly ended: () => void;
  readonly touched: (target: Element) => void;
}

/** Pixels that a finger may slip in a touch. */
const SLIP = 5;

export function listenForDrags(element: Element, dragging: Dragging): void {
  let press: { x: number; y: number; id: number; target: Element; drags: boolean } | undefined;
  let isMoving = false;
  const heard = (type: string, hear: (event: PointerEvent) => void) =>
    element.addEventListener(type, (event) => hear(event as PointerEvent));
  heard('pointerdown', (event) => {
    if (press || event.button !== 0 || !(event.target instanceof Element)) return;
    const { target, pointerId: id, clientX: x, clientY: y } = event;
    press = { x, y, id, target, drags: dragging.takes(target) };
    isMoving = false;
  });
  heard('pointermove', (event) => {
    if (!press || event.pointerId !== press.id) return;
    const [across, down] = [event.clientX - press.x, event.clientY - press.y];
    if (!isMoving && Math.hypot(across, down) < SLIP) return;
    if (!isMoving) {
      isMoving = true;
      if (press.drags) element.setPointerCapture(press.id);
    }
    if (press.drags) dragging.moved(across, down);
  });
  const end = (event: PointerEvent) => {
    if (!press || event.pointerId !== press.id) return;
    const { target, drags } = press;
    press = undefined;
    if (isMoving && drags) dragging.ended();
    else if (!isMoving && event.type === 'pointerup') dragging.touched(target);
  };
  heard('pointerup', end);
  heard('pointercancel', end);
}

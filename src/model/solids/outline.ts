/** Convex outlines in a plane. */

type Point = readonly [number, number];

/** The convex outline of points, counter-clockwise from the leftmost, corners only. */
export function convexOutline(points: readonly Point[]): readonly Point[] {
  const order = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  return [...chain(order), ...chain([...order].reverse())];
}

/** The lower side of points in order, without its last, which begins the other side. */
function chain(order: readonly Point[]): Point[] {
  const side: Point[] = [];
  for (const point of order) {
    while (side.length > 1 && !turnsLeft(side.at(-2)!, side.at(-1)!, point)) side.pop();
    side.push(point);
  }
  return side.slice(0, -1);
}

function turnsLeft(a: Point, b: Point, c: Point): boolean {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 0;
}

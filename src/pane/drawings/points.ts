export interface Point {
  readonly x: number;
  readonly y: number;
}

export const at = (x: number, y: number): Point => ({ x, y });

/** A polyline whose corners are rounded, as an SVG path. */
export function roundedPath(points: readonly Point[], radius = 7): string {
  const [first, ...rest] = points;
  if (!first) return "";
  let path = `M${first.x} ${first.y}`;
  rest.forEach((corner, i) => {
    const before = points[i]!;
    const after = rest[i + 1];
    if (!after) {
      path += `L${corner.x} ${corner.y}`;
      return;
    }
    const enter = towards(corner, before, radius);
    const leave = towards(corner, after, radius);
    path += `L${enter.x} ${enter.y}Q${corner.x} ${corner.y} ${leave.x} ${leave.y}`;
  });
  return path;
}

/** The point `distance` from `from` on the way to `to`, at most half way. */
function towards(from: Point, to: Point, distance: number): Point {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length === 0) return from;
  const share = Math.min(distance, length / 2) / length;
  return { x: round(from.x + (to.x - from.x) * share), y: round(from.y + (to.y - from.y) * share) };
}

/** To a tenth: finer than a screen shows. */
export const round = (value: number) => Math.round(value * 10) / 10;

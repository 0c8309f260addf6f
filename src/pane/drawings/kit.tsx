/** @jsxImportSource preact */
import type { ComponentChildren, JSX } from "preact";
import { useId } from "preact/hooks";

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

const round = (value: number) => Math.round(value * 10) / 10;

/** The frame of every drawing: a picture with a title and a description for those who do not see it. */
export function Drawing(props: {
  readonly title: string;
  readonly description: string;
  readonly width?: number;
  readonly height: number;
  readonly children: ComponentChildren;
}): JSX.Element {
  const id = useId();
  const width = props.width ?? 300;
  return (
    <svg
      class="cw-drawing"
      viewBox={`0 0 ${width} ${props.height}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-description`}
      preserveAspectRatio="xMidYMid meet"
    >
      <title id={`${id}-title`}>{props.title}</title>
      <desc id={`${id}-description`}>{props.description}</desc>
      {props.children}
    </svg>
  );
}

export function Wire({
  points,
  thin,
  dashed,
}: {
  readonly points: readonly Point[];
  readonly thin?: boolean;
  readonly dashed?: boolean;
}): JSX.Element {
  const kind = `cw-wire${thin ? " cw-thin" : ""}${dashed ? " cw-dashed" : ""}`;
  return <path class={kind} d={roundedPath(points, 0)} />;
}

/** Words in a drawing; `small` for notes. */
export function Note(props: {
  readonly x: number;
  readonly y: number;
  readonly anchor?: "start" | "middle" | "end";
  readonly strong?: boolean;
  readonly children: ComponentChildren;
}): JSX.Element {
  return (
    <text
      x={props.x}
      y={props.y}
      text-anchor={props.anchor ?? "middle"}
      class={props.strong ? "cw-note cw-strong" : "cw-note"}
    >
      {props.children}
    </text>
  );
}

/** A place that a lead can touch; drawn as an open ring, filled where two wires join. */
export function Node({
  place,
  p,
  joined,
}: {
  readonly place?: string;
  readonly p: Point;
  readonly joined?: boolean;
}): JSX.Element {
  return <circle class={joined ? "cw-joint" : "cw-node"} cx={p.x} cy={p.y} r={joined ? 2.6 : 4} data-place={place} />;
}

/**
 * A meter lead: a tube with its colour inside, so that it reads on light, dark and grey paper; the
 * tip carries a sign as well: + in a ring on red, − in a square on black.
 */
export function Lead({
  colour,
  points,
  place,
}: {
  readonly colour: "red" | "black";
  readonly points: readonly Point[];
  readonly place: string;
}): JSX.Element {
  const d = roundedPath(points);
  const tip = points.at(-1)!;
  return (
    <g class={`cw-lead cw-lead-${colour}`} data-lead={colour} data-touches={place}>
      <path class="cw-lead-skin" d={d} />
      <path class="cw-lead-core" d={d} />
      {colour === "red" ? (
        <>
          <circle class="cw-tip" cx={tip.x} cy={tip.y} r="7" />
          <path class="cw-tip-sign" d={`M${tip.x - 3.6} ${tip.y}h7.2M${tip.x} ${tip.y - 3.6}v7.2`} />
        </>
      ) : (
        <>
          <rect class="cw-tip" x={tip.x - 6.5} y={tip.y - 6.5} width="13" height="13" rx="1.5" />
          <path class="cw-tip-sign" d={`M${tip.x - 3.6} ${tip.y}h7.2`} />
        </>
      )}
    </g>
  );
}

/** The meter: what its dial is set to, and what it should show. */
export function Meter(props: {
  readonly x: number;
  readonly y: number;
  readonly dial: string;
  readonly shows: string;
  readonly width?: number;
  /** Where the sockets are, for leads that start there. */
  readonly sockets: { readonly red: Point; readonly black: Point };
}): JSX.Element {
  const width = props.width ?? 104;
  return (
    <g class="cw-meter">
      <rect x={props.x} y={props.y} width={width} height="46" rx="6" />
      <text class="cw-display" x={props.x + width / 2} y={props.y + 19} text-anchor="middle">
        {props.shows}
      </text>
      <text class="cw-note" x={props.x + width / 2} y={props.y + 36} text-anchor="middle">
        {props.dial}
      </text>
      <circle class="cw-socket" cx={props.sockets.red.x} cy={props.sockets.red.y} r="3.4" />
      <rect
        class="cw-socket"
        x={props.sockets.black.x - 3.2}
        y={props.sockets.black.y - 3.2}
        width="6.4"
        height="6.4"
      />
    </g>
  );
}

/** Sockets at the lower edge of a meter at (x, y). */
export function socketsBelow(x: number, y: number, width = 104): { readonly red: Point; readonly black: Point } {
  return { red: at(x + 18, y + 46), black: at(x + width - 18, y + 46) };
}

/** Chassis ground: three bars that grow shorter. */
export function Ground({ p }: { readonly p: Point }): JSX.Element {
  return (
    <path
      class="cw-wire"
      d={`M${p.x} ${p.y}v8M${p.x - 10} ${p.y + 8}h20M${p.x - 6} ${p.y + 12}h12M${p.x - 2.5} ${p.y + 16}h5`}
    />
  );
}

/** A box with a name in it, and a second line where wanted. */
export function Box(props: {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly name: string;
  readonly second?: string;
}): JSX.Element {
  const middle = props.y + props.height / 2;
  return (
    <g>
      <rect class="cw-part" x={props.x} y={props.y} width={props.width} height={props.height} rx="4" />
      <Note x={props.x + props.width / 2} y={props.second ? middle - 2 : middle + 4}>
        {props.name}
      </Note>
      {props.second ? (
        <Note x={props.x + props.width / 2} y={middle + 12}>
          {props.second}
        </Note>
      ) : null}
    </g>
  );
}

/** A battery: case, two posts, the cell symbol inside with the long plate on the positive side. */
export function Battery({
  x,
  y,
  name,
  positiveLeft = true,
}: {
  readonly x: number;
  readonly y: number;
  readonly name: string;
  readonly positiveLeft?: boolean;
}): JSX.Element {
  const [plus, minus] = positiveLeft ? [x + 26, x + 94] : [x + 94, x + 26];
  const outward = positiveLeft ? 1 : -1;
  const centre = x + 60;
  return (
    <g>
      <rect class="cw-part" x={x} y={y} width="120" height="58" rx="4" />
      <rect class="cw-post" data-place="battery +" x={plus - 8} y={y - 9} width="16" height="9" />
      <rect class="cw-post" data-place="battery -" x={minus - 8} y={y - 9} width="16" height="9" />
      <path
        class="cw-wire cw-thin"
        d={`M${plus} ${y + 22}H${centre - 7 * outward}M${centre - 7 * outward} ${y + 10}v24M${centre - 2 * outward} ${y + 16}v12M${centre + 3 * outward} ${y + 10}v24M${centre + 8 * outward} ${y + 16}v12M${centre + 8 * outward} ${y + 22}H${minus}`}
      />
      <text class="cw-sign" x={plus - 14 * outward} y={y + 17} text-anchor="middle">
        +
      </text>
      <text class="cw-sign" x={minus + 14 * outward} y={y + 17} text-anchor="middle">
        −
      </text>
      <Note x={centre} y={y + 51}>
        {name}
      </Note>
    </g>
  );
}

/** The posts of a `Battery` at (x, y). */
export function posts(x: number, y: number, positiveLeft = true): { readonly plus: Point; readonly minus: Point } {
  const left = at(x + 26, y - 9);
  const right = at(x + 94, y - 9);
  return positiveLeft ? { plus: left, minus: right } : { plus: right, minus: left };
}

/** A DC clamp round a wire that runs horizontally; the arrow shows which way its own arrow must point. */
export function Clamp({
  p,
  pointsRight,
  shows,
  dial,
}: {
  readonly p: Point;
  readonly pointsRight: boolean;
  readonly shows: string;
  readonly dial: string;
}): JSX.Element {
  const head = pointsRight ? 1 : -1;
  return (
    <g class="cw-clamp" data-arrow={pointsRight ? "right" : "left"}>
      <ellipse class="cw-jaw" cx={p.x} cy={p.y} rx="9" ry="17" />
      <path
        class="cw-arrow"
        d={`M${p.x - 13 * head} ${p.y - 24}h${26 * head}m${-6 * head} -4.5l${6 * head} 4.5l${-6 * head} 4.5`}
      />
      <rect class="cw-handle" x={p.x - 34} y={p.y + 20} width="68" height="38" rx="6" />
      <text class="cw-display" x={p.x} y={p.y + 36} text-anchor="middle">
        {shows}
      </text>
      <text class="cw-note" x={p.x} y={p.y + 51} text-anchor="middle">
        {dial}
      </text>
    </g>
  );
}

/** An arrow beside a wire: the way the current flows. */
export function Current({ from, to }: { readonly from: Point; readonly to: Point }): JSX.Element {
  const angle = Math.atan2(to.y - from.y, to.x - from.x);
  const barb = (turn: number) =>
    `${round(to.x - 6 * Math.cos(angle + turn))} ${round(to.y - 6 * Math.sin(angle + turn))}`;
  return (
    <path class="cw-arrow" d={`M${from.x} ${from.y}L${to.x} ${to.y}M${barb(0.6)}L${to.x} ${to.y}L${barb(-0.6)}`} />
  );
}

/** A winding between two points, as a row of half turns. */
export function Winding({
  a,
  b,
  turns = 4,
}: {
  readonly a: Point;
  readonly b: Point;
  readonly turns?: number;
}): JSX.Element {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const ux = (b.x - a.x) / length;
  const uy = (b.y - a.y) / length;
  const step = Math.min(9, (length * 0.7) / turns);
  const lead = (length - step * turns) / 2;
  let d = `M${a.x} ${a.y}L${round(a.x + ux * lead)} ${round(a.y + uy * lead)}`;
  for (let i = 1; i <= turns; i++) {
    const along = lead + step * i;
    d += `A${round(step / 2)} ${round(step / 2)} 0 0 1 ${round(a.x + ux * along)} ${round(a.y + uy * along)}`;
  }
  return <path class="cw-wire" d={`${d}L${b.x} ${b.y}`} />;
}

/** A resistance: the heater's zigzag would be taken for a winding, so the box of the IEC symbol. */
export function Resistor({ p, width = 34 }: { readonly p: Point; readonly width?: number }): JSX.Element {
  return <rect class="cw-part" x={p.x - width / 2} y={p.y - 6} width={width} height="12" />;
}

/** @jsxImportSource preact */
import type { ComponentChildren, JSX } from "preact";
import { useId } from "preact/hooks";
import { round, roundedPath, type Point } from "./points";

/** The frame of every drawing: a picture with a title and a description for those who do not see it. */
export function Drawing(props: {
  readonly title: string;
  readonly description: string;
  readonly width?: number;
  readonly height: number;
  /** Height at which the picture starts, where nothing is drawn above. */
  readonly top?: number;
  readonly children: ComponentChildren;
}): JSX.Element {
  const id = useId();
  const width = props.width ?? 300;
  const top = props.top ?? 0;
  return (
    <svg
      class="cw-drawing"
      viewBox={`0 ${top} ${width} ${props.height - top}`}
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

/** An arrow beside a wire: the way the current flows. */
export function Current({ from, to }: { readonly from: Point; readonly to: Point }): JSX.Element {
  const angle = Math.atan2(to.y - from.y, to.x - from.x);
  const barb = (turn: number) =>
    `${round(to.x - 6 * Math.cos(angle + turn))} ${round(to.y - 6 * Math.sin(angle + turn))}`;
  return (
    <path class="cw-arrow" d={`M${from.x} ${from.y}L${to.x} ${to.y}M${barb(0.6)}L${to.x} ${to.y}L${barb(-0.6)}`} />
  );
}

/** @jsxImportSource preact */
import type { JSX } from "preact";
import { at, roundedPath, type Point } from "./points";

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

/** @jsxImportSource preact */
import type { JSX } from "preact";
import { Note } from "./kit";
import { at, round, type Point } from "./points";

/** Chassis ground: three bars that grow shorter. */
export function Ground({ p }: { readonly p: Point }): JSX.Element {
  return (
    <path
      class="cw-wire"
      d={`M${p.x} ${p.y}v8M${p.x - 10} ${p.y + 8}h20M${p.x - 6} ${p.y + 12}h12M${p.x - 2.5} ${p.y + 16}h5`}
    />
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

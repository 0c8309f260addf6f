/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import type { ReadingState } from "../../core/judgement/types";
import { toneOf } from "../views/state-mark";
import { scaleOver } from "./scale";

export interface DotRow {
  readonly label: string;
  readonly value?: number | undefined;
  /** Value with its unit, as it is written. */
  readonly text: string;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  readonly state: ReadingState;
}

const LEFT = 86;
const RIGHT = 288;
const ROW = 30;

/**
 * Readings side by side on one scale, each as a dot in its own row with the band it should lie in.
 *
 * @param mean - Drawn as a line across all rows
 */
export function DotRows({
  title,
  unit,
  rows,
  mean,
}: {
  readonly title: string;
  readonly unit: string;
  readonly rows: readonly DotRow[];
  readonly mean?: { readonly value: number; readonly label: string } | undefined;
}): JSX.Element | null {
  const id = useId();
  const values = rows.flatMap(({ value, low, high }) => [value, low, high]).filter((v): v is number => v !== undefined);
  if (values.length === 0) return null;
  const scale = scaleOver(values, [LEFT, RIGHT]);
  const bottom = 14 + rows.length * ROW;
  const description = rows
    .map(({ label, text, low, high }) => `${label}: ${text}${bandWords(low, high, scale.decimals, unit)}`)
    .join("; ");
  return (
    <svg class="cw-chart" viewBox={`0 0 300 ${bottom + 30}`} role="img" aria-labelledby={`${id}-t ${id}-d`}>
      <title id={`${id}-t`}>{title}</title>
      <desc id={`${id}-d`}>{description}</desc>
      {scale.ticks.map((tick) => (
        <g key={tick}>
          <path class="cw-grid" d={`M${scale.at(tick)} 8V${bottom}`} />
          <text class="cw-tick" x={scale.at(tick)} y={bottom + 12} text-anchor="middle">
            {tick.toFixed(scale.decimals)}
          </text>
        </g>
      ))}
      <text class="cw-tick" x={RIGHT} y={bottom + 26} text-anchor="end">
        {unit}
      </text>
      {rows.map((row, i) => (
        <Row key={row.label} row={row} y={24 + i * ROW} at={scale.at} />
      ))}
      {mean ? (
        <g>
          <path class="cw-mean" d={`M${scale.at(mean.value)} 8V${bottom}`} />
          <text class="cw-tick" x={LEFT} y={bottom + 26} text-anchor="start">
            {mean.label}
          </text>
        </g>
      ) : null}
    </svg>
  );
}

function Row({
  row,
  y,
  at,
}: {
  readonly row: DotRow;
  readonly y: number;
  readonly at: (value: number) => number;
}): JSX.Element {
  const { low, high, value } = row;
  const banded = low !== undefined || high !== undefined;
  const from = low === undefined ? LEFT : at(low);
  const to = high === undefined ? RIGHT : at(high);
  return (
    <g>
      <text class="cw-row-label" x="2" y={y - 1}>
        {row.label}
      </text>
      <text class="cw-row-value" x="2" y={y + 12}>
        {row.text}
      </text>
      <path class="cw-track" d={`M${LEFT} ${y}H${RIGHT}`} />
      {banded ? <rect class="cw-band" x={from} y={y - 8} width={Math.max(1, to - from)} height="16" /> : null}
      {low === undefined ? null : <path class="cw-limit" d={`M${from} ${y - 9}v18`} />}
      {high === undefined ? null : <path class="cw-limit" d={`M${to} ${y - 9}v18`} />}
      {value === undefined ? null : <Dot x={at(value)} y={y} state={row.state} />}
    </g>
  );
}

/** The reading's dot takes the shape of its state: disc, square, triangle, ring. */
export function Dot({
  x,
  y,
  state,
}: {
  readonly x: number;
  readonly y: number;
  readonly state: ReadingState;
}): JSX.Element {
  const tone = toneOf(state);
  const place = { class: `cw-dot cw-${tone}`, "data-state": state };
  if (tone === "bad") return <rect {...place} x={x - 5} y={y - 5} width="10" height="10" />;
  if (tone === "doubt") return <path {...place} d={`M${x} ${y - 6}l6.500 11h-13z`} />;
  return <circle {...place} cx={x} cy={y} r="5.500" />;
}

function bandWords(low: number | undefined, high: number | undefined, decimals: number, unit: string): string {
  const show = (value: number) => value.toFixed(decimals + 1);
  if (low !== undefined && high !== undefined) return ` (${show(low)} – ${show(high)} ${unit})`;
  if (low !== undefined) return ` (≥ ${show(low)} ${unit})`;
  return high === undefined ? "" : ` (≤ ${show(high)} ${unit})`;
}

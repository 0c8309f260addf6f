/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import type { ReadingState } from "../../core/judgement/types";
import type { DiodeState } from "../../core/rectifier/types";
import type { Phase } from "../drawings/placements";
import { ShapePaths, toneOf } from "../views/state-mark";
import { useWords } from "../words/words";

/** One device of the bridge as it was read both ways. */
export interface DeviceReading {
  readonly bank: "upper" | "lower";
  readonly phase: Phase;
  readonly forward: string;
  readonly reverse: string;
  readonly state: ReadingState;
  /** What the two readings show: conducts, short, open, parallel path … */
  readonly shows: DiodeState;
}

const TOP = 22;
const MIDDLE = 92;
const BOTTOM = 162;

/** The bridge with every device's two readings and its state in its place. */
export function DeviceMap({ devices }: { readonly devices: readonly DeviceReading[] }): JSX.Element {
  const words = useWords();
  const id = useId();
  const phases = [...new Set(devices.map((device) => device.phase))];
  const column = (phase: Phase) => 30 + phases.indexOf(phase) * (phases.length > 2 ? 95 : 130);
  const right = column(phases.at(-1)!) + 72;
  const description = devices
    .map(({ bank, phase, forward, reverse, shows }) =>
      words.map.device(bank, phase.toUpperCase(), forward, reverse, words.map.shows[shows]),
    )
    .join("; ");
  return (
    <svg class="cw-chart cw-map" viewBox="0 0 300 190" role="img" aria-labelledby={`${id}-t ${id}-d`}>
      <title id={`${id}-t`}>{words.map.title}</title>
      <desc id={`${id}-d`}>{description}</desc>
      <path class="cw-wire" d={`M14 ${TOP}H${right}M14 ${BOTTOM}H${right}`} />
      <text class="cw-note cw-strong" x="2" y={TOP - 8}>
        B+
      </text>
      <text class="cw-note cw-strong" x="2" y={BOTTOM + 18}>
        {words.drawing.ground}
      </text>
      {phases.map((phase) => (
        <g key={phase}>
          <path class="cw-wire" d={`M${column(phase)} ${TOP}V${BOTTOM}`} />
          <circle class="cw-node" cx={column(phase)} cy={MIDDLE} r="4" />
          <text class="cw-note cw-strong" x={column(phase) - 16} y={MIDDLE + 4}>
            {phase.toUpperCase()}
          </text>
        </g>
      ))}
      {devices.map((device) => (
        <Device
          key={`${device.bank}${device.phase}`}
          device={device}
          x={column(device.phase)}
          y={device.bank === "upper" ? (TOP + MIDDLE) / 2 : (MIDDLE + BOTTOM) / 2}
        />
      ))}
    </svg>
  );
}

function Device({
  device,
  x,
  y,
}: {
  readonly device: DeviceReading;
  readonly x: number;
  readonly y: number;
}): JSX.Element {
  const shows = useWords().map.shows[device.shows];
  // Two words stand over each other, or they would run into the next device.
  const cut = shows.lastIndexOf(" ") + 1;
  return (
    <g data-device={`${device.bank} ${device.phase}`} data-state={device.state}>
      <path class={`cw-triangle cw-${toneOf(device.state)}`} d={`M${x - 9} ${y + 8}h18l-9 -16z`} />
      <path class="cw-bar" d={`M${x - 9} ${y - 8}h18`} />
      <svg
        class={`cw-shape cw-${toneOf(device.state)}`}
        x={x + 13}
        y={y - 24}
        width="13"
        height="13"
        viewBox="0 0 16 16"
      >
        <ShapePaths state={device.state} />
      </svg>
      <text class="cw-shows" x={x + 29} y={cut > 0 ? y - 24 : y - 13.5}>
        {shows.slice(0, cut)}
        <tspan x={x + 29} y={y - 13.5}>
          {shows.slice(cut)}
        </tspan>
      </text>
      <path class="cw-way" d={`M${x + 16} ${y - 0.5}h9m-3 -3l3 3l-3 3`} />
      <text class="cw-row-value" x={x + 29} y={y + 3}>
        {device.forward}
      </text>
      <path class="cw-way" d={`M${x + 25} ${y + 13.5}h-9m3 -3l-3 3l3 3`} />
      <text class="cw-row-value" x={x + 29} y={y + 17}>
        {device.reverse}
      </text>
    </g>
  );
}

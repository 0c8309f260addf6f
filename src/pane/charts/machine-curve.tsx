/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useEffect, useId, useState } from "preact/hooks";
import type { CurvePoint } from "../../core/circuit/machine-curve";
import type { Judged, ReadingState } from "../../core/judgement/types";
import { numberWords } from "../../core/judgement/words";
import { entryOf, numberIn, quantityById } from "../../core/readings/catalogue";
import type { Job } from "../../core/readings/types";
import { faultMessage } from "../../core/result";
import { useWords } from "../words/words";
import { Dot } from "./dot-rows";
import { scaleOver, type Scale } from "./scale";
import { solveCurve, type Curve } from "./solve-curve";

const SLOWEST_RPM = 800;
const USUAL_RPM = 5500;

const LEFT = 34;
const RIGHT = 282;
const TOP = 10;

interface CurveDot {
  readonly label: string;
  readonly rpm: number;
  readonly value: number;
  readonly text: string;
  readonly state: ReadingState;
}

/**
 * What a healthy machine of these data should show over engine speed, with its band, and the
 * readings as dots on it: voltage at the posts above, current into the battery below.
 */
export function MachineCurve({
  job,
  judged,
}: {
  readonly job: Job;
  readonly judged: ReadonlyMap<string, Judged>;
}): JSX.Element | null {
  const words = useWords();
  const fastest = Math.max(USUAL_RPM, 1.1 * (numberIn(job, "test-rpm") ?? 0));
  const curve = useCurve(job, fastest);
  if (!curve) return null;
  if (!curve.points.ok) return <p class="cw-warning">{words.said(faultMessage(curve.points.fault))}</p>;
  const points = curve.points.value;
  const volts = [
    dotOf(job, judged, "idle-rpm", "idle-voltage", words.chart.idle),
    dotOf(job, judged, "test-rpm", "test-voltage", words.chart.test),
  ];
  const amps = [dotOf(job, judged, "test-rpm", "battery-current", words.chart.test)];
  const across = scaleOver([SLOWEST_RPM, fastest], [LEFT, RIGHT], 6);
  const balance = curve.balance.ok ? Math.round(curve.balance.value.likely / 50) * 50 : undefined;
  return (
    <div class="cw-curves">
      <Plot
        title={words.chart.curve}
        unit="V"
        across={across}
        points={points}
        line={(point) => point.volts.likely}
        band={(point) => [point.volts.low, point.volts.high]}
        dots={volts.filter((dot) => dot !== undefined)}
      />
      <Plot
        title={words.chart.curveOutput}
        unit="A"
        across={across}
        points={points}
        line={(point) => point.amps}
        zero
        dots={amps.filter((dot) => dot !== undefined)}
      />
      <p class="cw-meta">
        {words.chart.key} {balance === undefined ? null : words.chart.gainsFrom(balance)}{" "}
        {curve.assumed.length > 0 ? `${words.chart.assumed}: ${curve.assumed.map(words.said).join("; ")}.` : null}
      </p>
    </div>
  );
}

/** Readings that the curve depends on, besides the machine's data: state and temperature of the battery, load. */
const DEPENDS_ON = ["rested-voltage", "battery-temperature", "key-on-load", "added-load"];

/**
 * The curve takes longer to solve than everything else in the pane together: it follows once typing
 * rests, only where something that it depends on has changed, and the one before stays until then.
 */
function useCurve(job: Job, fastest: number): Curve | undefined {
  const key = JSON.stringify([...job].filter(([id]) => DEPENDS_ON.includes(id) || entryOf(id)?.stage === "machine"));
  const [curve, setCurve] = useState<Curve | undefined>(undefined);
  useEffect(() => {
    const timer = setTimeout(() => setCurve(solveCurve(job, SLOWEST_RPM, fastest)), REST_MS);
    return () => clearTimeout(timer);
    // The key holds all of the job that the curve depends on.
  }, [key, fastest]);
  return curve;
}

const REST_MS = 200;

function dotOf(
  job: Job,
  judged: ReadonlyMap<string, Judged>,
  speed: string,
  reading: string,
  label: string,
): CurveDot | undefined {
  const [rpm, value] = [numberIn(job, speed), numberIn(job, reading)];
  if (rpm === undefined || value === undefined) return undefined;
  return {
    label,
    rpm,
    value,
    text: numberWords(value, quantityById(reading)),
    state: judged.get(reading)?.state ?? "unsure",
  };
}

interface PlotProps {
  readonly title: string;
  readonly unit: string;
  readonly across: Scale;
  readonly points: readonly CurvePoint[];
  readonly line: (point: CurvePoint) => number;
  readonly band?: (point: CurvePoint) => readonly [low: number, high: number];
  readonly zero?: boolean;
  readonly dots: readonly CurveDot[];
}

function Plot({ title, unit, across, points, line, band, zero, dots }: PlotProps): JSX.Element {
  const words = useWords();
  const id = useId();
  const bottom = 120;
  const up = scaleOver(
    [
      ...points.map(line),
      ...points.flatMap((point) => band?.(point) ?? []),
      ...dots.map((dot) => dot.value),
      ...(zero ? [0] : []),
    ],
    [bottom, TOP],
    5,
  );
  const at = (rpm: number, value: number) => `${across.at(rpm).toFixed(1)} ${up.at(value).toFixed(1)}`;
  const description = [
    ...dots.map((dot) => `${words.chart.read} ${dot.label} (${dot.rpm} rpm): ${dot.text}`),
    ...[points[2], points.at(-2)]
      .filter((p) => p !== undefined)
      .map((point) => {
        const range = band?.(point);
        const expected = range ? `${range[0].toFixed(1)}–${range[1].toFixed(1)}` : line(point).toFixed(1);
        return `${words.chart.expected} ${Math.round(point.rpm)} rpm: ${expected} ${unit}`;
      }),
  ].join("; ");
  return (
    <svg class="cw-chart" viewBox={`0 0 300 ${bottom + 30}`} role="img" aria-labelledby={`${id}-t ${id}-d`}>
      <title id={`${id}-t`}>{title}</title>
      <desc id={`${id}-d`}>{description}</desc>
      {up.ticks.map((tick) => (
        <g key={tick}>
          <path class={zero && tick === 0 ? "cw-mean" : "cw-grid"} d={`M${LEFT} ${up.at(tick)}H${RIGHT}`} />
          <text class="cw-tick" x={LEFT - 4} y={up.at(tick) + 3.5} text-anchor="end">
            {tick.toFixed(up.decimals)}
          </text>
        </g>
      ))}
      {across.ticks.map((tick) => (
        <text key={tick} class="cw-tick" x={across.at(tick)} y={bottom + 13} text-anchor="middle">
          {tick}
        </text>
      ))}
      <text class="cw-tick" x={RIGHT} y={bottom + 27} text-anchor="end">
        {words.chart.speed}
      </text>
      <text class="cw-row-label" x="2" y={bottom + 27}>
        {title}, {unit}
      </text>
      {band ? (
        <path
          class="cw-band"
          d={`M${points.map((point) => at(point.rpm, band(point)[1])).join("L")}L${[...points]
            .reverse()
            .map((point) => at(point.rpm, band(point)[0]))
            .join("L")}Z`}
        />
      ) : null}
      <path class="cw-curve" d={`M${points.map((point) => at(point.rpm, line(point))).join("L")}`} />
      {dots.map((dot) => (
        <g key={dot.label}>
          <Dot x={across.at(dot.rpm)} y={up.at(dot.value)} state={dot.state} />
          <text
            class="cw-row-value cw-strong"
            x={across.at(dot.rpm) + (dot.rpm > (across.from + across.to) / 2 ? -9 : 9)}
            y={up.at(dot.value) + (up.at(dot.value) > bottom - 16 ? -6 : 12)}
            text-anchor={dot.rpm > (across.from + across.to) / 2 ? "end" : "start"}
          >
            {dot.text}
          </text>
        </g>
      ))}
    </svg>
  );
}

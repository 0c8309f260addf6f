/** @jsxImportSource preact */
import type { JSX } from "preact";
import type { Judged } from "../../core/judgement/types";
import { numberWords } from "../../core/judgement/words";
import { numberIn, quantityById } from "../../core/readings/catalogue";
import { PAIRS } from "../../core/readings/entries";
import type { Job, Measured } from "../../core/readings/types";
import { BLOCK_ROW, deviceWord, judgedDiodes, type DiodeRow } from "../diode-block";
import { StateMark } from "../views/state-mark";
import { drawnMachine } from "../working-order";
import { useWords, type Words } from "../words/words";
import { MachineCurve } from "./machine-curve";
import { DeviceMap, type DeviceReading } from "./device-map";
import { DotRows, type DotRow } from "./dot-rows";

interface ChartProps {
  readonly job: Job;
  readonly judged: ReadonlyMap<string, Judged>;
  readonly knownGood: readonly Job[];
}

/** The chart that belongs to a check; nothing where it has none or nothing was read. */
export function CheckChart({ checkId, ...props }: ChartProps & { readonly checkId: string }): JSX.Element | null {
  const words = useWords();
  switch (checkId) {
    case "running-idle":
    case "running-test":
      return (
        <>
          <RunningChart {...props} />
          <MachineCurve job={props.job} judged={props.judged} />
        </>
      );
    case "no-load-ac":
      return <PairsChart {...props} prefix="no-load-" title={words.chart.noLoad} />;
    case "loaded-ac":
      return <PairsChart {...props} prefix="loaded-" title={words.chart.loaded} />;
    case "winding-ohms":
      return <PairsChart {...props} prefix="winding-" title={words.chart.ohms} />;
    case "diode-check":
      return <BridgeChart {...props} />;
    default:
      return null;
  }
}

/** Battery voltage at rest, at idle and at test speed on one scale, each with its band. */
export function RunningChart({ job, judged }: ChartProps): JSX.Element | null {
  const words = useWords();
  if (numberIn(job, "idle-voltage") === undefined && numberIn(job, "test-voltage") === undefined) return null;
  const speed = (id: string, name: string) => {
    const rpm = numberIn(job, id);
    return rpm === undefined ? name : words.chart.at(rpm);
  };
  const rows = [
    rowOf("rested-voltage", words.chart.rest, job, judged, words),
    rowOf("idle-voltage", speed("idle-rpm", words.chart.idle), job, judged, words),
    rowOf("test-voltage", speed("test-rpm", words.chart.test), job, judged, words),
  ];
  return <DotRows title={words.chart.running} unit="V" rows={rows} />;
}

/** Three pairs side by side with their mean: what an even stator looks like, and what not. */
function PairsChart({
  job,
  judged,
  prefix,
  title,
}: ChartProps & { readonly prefix: string; readonly title: string }): JSX.Element | null {
  const words = useWords();
  const ids = PAIRS.map((pair) => `${prefix}${pair}`);
  const values = ids.map((id) => numberIn(job, id)).filter((v): v is number => v !== undefined);
  if (values.length < 2) return null;
  const entry = quantityById(ids[0]!);
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  const rows = PAIRS.map((pair, i) => rowOf(ids[i]!, pairName(pair), job, judged, words));
  return (
    <DotRows
      title={title}
      unit={words.said(entry.unit)}
      rows={rows}
      mean={{ value: mean, label: words.chart.mean(words.said(numberWords(mean, entry))) }}
    />
  );
}

/** All devices of the bridge, once one of them was read. */
function BridgeChart({ job, judged, knownGood }: ChartProps): JSX.Element | null {
  const words = useWords();
  const { phases } = drawnMachine(job);
  const check = judgedDiodes(job, phases, knownGood);
  if (!check) return null;
  const devices = (["upper", "lower"] as const).flatMap((bank) =>
    phases.map((phase, i): DeviceReading => {
      const [forward, reverse] = [`${bank}-forward-${phase}`, `${bank}-reverse-${phase}`];
      const shows = (row: DiodeRow) => check.readings[BLOCK_ROW[row]][i] ?? "not read";
      const states = [forward, reverse].map((id) => judged.get(id)?.state ?? "not read");
      return {
        bank,
        phase,
        forward: bare(job.get(forward), words),
        reverse: bare(job.get(reverse), words),
        state: (["fail", "unsure", "not read", "pass"] as const).find((state) => states.includes(state))!,
        shows: deviceWord(shows(`${bank}-forward`), shows(`${bank}-reverse`)),
      };
    }),
  );
  return (
    <>
      <DeviceMap devices={devices} />
      <p>
        <strong>{words.map.devices}:</strong> <StateMark state={check.state} />
      </p>
      <p>
        {words.said(check.reason)} {words.said(check.next)}
      </p>
      {check.hidden.length > 0 ? (
        <details>
          <summary>{words.map.hidden}</summary>
          <ul>
            {check.hidden.map((line) => (
              <li key={line}>{words.said(line)}</li>
            ))}
          </ul>
        </details>
      ) : null}
    </>
  );
}

function rowOf(id: string, label: string, job: Job, judged: ReadonlyMap<string, Judged>, words: Words): DotRow {
  const entry = quantityById(id);
  const measured = job.get(id);
  const verdict = judged.get(id);
  return {
    label,
    value: measured?.kind === "number" ? measured.value : undefined,
    text:
      measured?.kind === "number"
        ? words.said(numberWords(measured.value, entry))
        : measured
          ? bare(measured, words)
          : words.state["not read"],
    low: verdict?.limit?.low,
    high: verdict?.limit?.high,
    state: verdict?.state ?? (measured ? "unsure" : "not read"),
  };
}

function bare(measured: Measured | undefined, words: Words): string {
  switch (measured?.kind) {
    case "number":
      return measured.value.toFixed(3);
    case "overload":
      return "OL";
    case "above":
      return `> ${measured.value}`;
    case "below":
      return `< ${measured.value}`;
    default:
      return words.map.blank;
  }
}

function pairName(pair: string): string {
  return `${pair[0]!.toUpperCase()}–${pair[1]!.toUpperCase()}`;
}

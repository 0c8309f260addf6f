import { machineCurve } from "../../src/core/circuit/machine-curve";
import { closedForm } from "../../src/core/circuit/mean-point";
import { timeStepped } from "../../src/core/circuit/steady-state";
import { ngspiceInstalled, simulate } from "../../src/tools/ngspice";
import { jobOf } from "../core/circuit/example-job";
import { MACHINE, machineWith, WARM } from "../core/circuit/example-system";

/**
 * Speed of the circuit, as ratios to ngspice for the same operating points in the same run. Prints, and
 * judges nothing: a busy machine slows both sides.
 *
 *   node -r ./.config/typescript.cjs tests/bench/circuit.bench.ts
 *
 * Processor time is counted on both sides.
 */
const POINTS = [
  ["idle, machine limits", machineWith({}), { ...WARM, rpm: 1200 }],
  ["edge of regulation, 1400 rpm", machineWith({}), { ...WARM, rpm: 1400 }],
  ["no regulator, 3500 rpm", machineWith({ regulator: { kind: "none" } }), { ...WARM, rpm: 3500 }],
  ["shunt regulator at work, 4000 rpm", MACHINE, WARM],
  ["series regulator at work, 4000 rpm", machineWith({ regulator: { kind: "series" } }), WARM],
  [
    "one upper device open, 3500 rpm",
    machineWith({ bridge: { upper: ["open", "ok", "ok"] }, regulator: { kind: "none" } }),
    { ...WARM, rpm: 3500 },
  ],
] as const;

/** Like ngspice users do for a steady state: enough periods to settle, as many to measure. */
const WINDOW = { settlePeriods: 30, measuredPeriods: 32, stepsPerPeriod: 200 };

function milliseconds(work: () => void, least: number): number {
  for (let k = 0; k < 3; k++) work();
  let rounds = 0;
  const start = process.cpuUsage();
  let spent = 0;
  while (spent < least) {
    work();
    rounds++;
    const { user, system } = process.cpuUsage(start);
    spent = (user + system) / 1000;
  }
  return spent / rounds;
}

const figure = (value: number) => (value >= 100 ? value.toFixed(0) : value >= 1 ? value.toFixed(2) : value.toFixed(4));

const withSimulator = ngspiceInstalled();
if (!withSimulator) console.log("ngspice is not installed here: times only, no ratios.");
for (const [name, system, at] of POINTS) {
  const timed = milliseconds(() => timeStepped(system, at, false), 400);
  const quick = milliseconds(() => closedForm(system, at), 100);
  const simulated = withSimulator ? simulate(system, at, 1, WINDOW) : null;
  const ratios = simulated
    ? `; ngspice ${figure(simulated.cpuMs)} ms: time-stepped ${figure(simulated.cpuMs / timed)}×, averaged ${figure(simulated.cpuMs / quick)}×`
    : "";
  console.log(`${name}: time-stepped ${figure(timed)} ms, averaged ${figure(quick)} ms${ratios}`);
}

const job = jobOf({
  "rated-output": 400,
  "no-load-nominal": 95,
  "no-load-nominal-rpm": 5000,
  "battery-type": "agm",
  "battery-capacity": 14,
  "regulator-kind": "shunt",
  "regulated-min": 13.5,
  "regulated-max": 15,
  "lights-load": 14,
});
const speeds = Array.from({ length: 60 }, (_, k) => 300 + 100 * k);
console.log(`curve of 60 speeds with its band: ${figure(milliseconds(() => machineCurve(job, speeds), 1000))} ms`);

import { readFileSync } from "node:fs";
import { timeStepped } from "../../src/core/circuit/steady-state";
import { compared, mean, storedPoints } from "../core/circuit/stored-points";
import { systemOfCase, type SimulatedCase } from "./simulated-cases";

/**
 * Accuracy of the circuit, fault by fault, printed: against the stored ngspice runs, and against a file
 * of simulated jobs where CHARGEWRIGHT_CASES names one.
 *
 *   node -r ./.config/typescript.cjs tests/bench/circuit-accuracy.bench.ts
 */
interface Row {
  readonly name: string;
  readonly volts: number;
  readonly amps: number;
  readonly share: number;
}

function table(title: string, rows: readonly Row[]): void {
  console.log(`\n${title}`);
  const line = (name: string, of: readonly Row[]) => {
    const share = of.map(({ amps, share }) => (amps <= 0.05 ? 0 : 100 * share));
    console.log(
      `${name.padEnd(46)} ${String(of.length).padStart(4)}  volts ${mean(of.map(({ volts }) => volts)).toFixed(3)} / ${Math.max(...of.map(({ volts }) => volts)).toFixed(3)} V` +
        `  current ${mean(share).toFixed(2)} / ${Math.max(...share).toFixed(2)} %`,
    );
  };
  const names = [...new Set(rows.map(({ name }) => name))].sort();
  for (const name of names)
    line(
      name,
      rows.filter((row) => row.name === name),
    );
  for (const kind of ["unregulated", "regulating", "shorted battery"]) {
    const of = rows.filter((row) => row.name.startsWith(kind));
    if (of.length > 0) line(`all ${kind}`, of);
  }
}

const stored = storedPoints();
table(
  `${stored.points.length} operating points, ${stored.simulator}: mean / largest error`,
  stored.points.map(compared).map(({ kind, fault, ...errors }) => ({ name: `${kind}, ${fault}`, ...errors })),
);

const file = process.env["CHARGEWRIGHT_CASES"];
if (file) {
  const cases = (JSON.parse(readFileSync(file, "utf8")) as { cases: SimulatedCase[] }).cases;
  const rows = cases.flatMap((one) =>
    (["idle", "test"] as const).map((which): Row => {
      const { system, at, found } = systemOfCase(one, which);
      const point = timeStepped(system, at, false);
      if (!point.ok) throw new Error(`${one.caseId} ${which}: ${point.fault.code}`);
      const working = system.regulator.stuck.some((stuck) => stuck === null) && found.regulatorCommandDuty > 0.0011;
      const amps = Math.abs(point.value.rectifierAmps - found.rectifierCurrentMeanA);
      return {
        name: `${working ? "regulating" : "unregulated"}, ${one.truth.faultId.replaceAll("_", " ")}`,
        volts: Math.abs(point.value.batteryVolts - found.batteryVoltageMeanV),
        amps,
        share: amps / Math.max(Math.abs(found.rectifierCurrentMeanA), 1e-9),
      };
    }),
  );
  table(`${rows.length} running points of ${cases.length} simulated jobs: mean / largest error`, rows);
}

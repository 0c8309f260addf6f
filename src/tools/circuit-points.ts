import { writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import type { AlternatorKind, Battery, ChargingSystem, Conditions, Triple } from "../core/circuit/types";
import { ngspiceInstalled, simulate, type Simulated } from "./ngspice";
import { Random } from "./simulation/random";

/**
 * Makes operating points of invented machines and has ngspice solve them, for the tests to replay:
 *
 *   node -r ./.config/typescript.cjs src/tools/circuit-points.ts --out tests/circuit-data/points.json [--count 240] [--seed 1]
 *
 * A third of the points has no regulator and a battery without polarization: circuit against circuit.
 * The others have both; there ngspice is run until current and polarization belong to each other.
 */
interface Point {
  readonly what: string;
  readonly system: ChargingSystem;
  readonly at: Conditions;
  readonly startAmps: number;
  readonly found: Simulated;
}

const FAULTS = [
  "healthy", "healthy", "healthy", "upper open", "lower open", "upper shorted", "lower shorted", "leg open", "lead open", "winding open", "turns shorted",
  "ground leak", "phase resistance", "B+ resistance", "ground resistance", "weak rotor", "one phase shunting", "overcharge", "added load", "sulfated", "shorted cell",
] as const; // prettier-ignore
type FaultName = (typeof FAULTS)[number];

const round = (value: number) => Number(value.toPrecision(5));

function draw(random: Random, kind: AlternatorKind, regulated: boolean): { system: ChargingSystem; at: Conditions } {
  const between = (low: number, high: number) => round(low + (high - low) * random.next());
  const three = <T>(make: () => T): Triple<T> => [make(), make(), make()];
  const delta = random.next() < 0.5;
  const polePairs = 4 + Math.floor(6 * random.next());
  const single = kind !== "three-phase";
  const emfPerKrpm = single ? between(9, 16) : between(14, 25);
  const lineOhms = single ? between(0.15, 0.6) : between(0.25, 1.2);
  const capacity = between(8, 30);
  // Short-circuit current over resistance sets a machine's size: reactance at 5000 rpm from it.
  const reactance = lineOhms * between(2.5, 6);
  const henry = reactance / (2 * Math.PI * (5000 / 60) * polePairs);
  const battery: Battery = {
    ocvVolts: between(11.9, 12.9),
    ohms: round(between(0.12, 0.22) / capacity),
    chargeVolts: regulated ? 0.45 : 1e-5,
    chargeAmps: round(capacity * between(0.004, 0.02)),
    dischargeVolts: regulated ? 0.1 : 1e-5,
    dischargeAmps: round(capacity * between(0.014, 0.02)),
  };
  const rpm = between(1100, 6000);
  return {
    system: {
      alternator: {
        kind,
        connection: delta ? "delta" : "wye",
        emfPerKrpm,
        emfScale: 1,
        harmonic5: between(-0.04, 0.04),
        harmonic7: between(-0.02, 0.02),
        windingOhms: round(single ? lineOhms : delta ? 1.5 * lineOhms : lineOhms / 2),
        windingHenry: round(single ? henry : delta ? 1.5 * henry : henry / 2),
        polePairs,
        windingOpen: [false, false, false],
      },
      bridge: {
        upper: ["ok", "ok", "ok"],
        lower: ["ok", "ok", "ok"],
        legOpen: [false, false, false],
        shortOhms: between(0.004, 0.012),
        diode: {
          saturationAmps: round(10 ** (-9.3 + 0.6 * random.next())),
          ideality: 1.5,
          seriesOhms: between(0.003, 0.008),
        },
      },
      regulator: {
        kind: regulated ? (random.next() < 0.6 ? "shunt" : "series") : "none",
        setVolts: between(14.2, 14.8),
        voltsPerC: between(-0.004, -0.001),
        hysteresisHalfVolts: between(0.04, 0.12),
        filterSeconds: between(3e-4, 1e-3),
        senses: random.next() < 0.4 ? "battery" : "own output",
        stuck: [null, null, null],
      },
      harness: {
        bplusOhms: between(0.006, 0.02),
        groundOhms: between(0.003, 0.011),
        statorSideOhms: [0, 0, 0],
        phaseOhms: three(() => between(0.003, 0.012)),
        leadOpen: [false, false, false],
      },
      battery,
    },
    at: { rpm, loadAmps: between(3, 18), statorCelsius: between(50, 120), regulatorCelsius: between(40, 90) },
  };
}

function broken(
  random: Random,
  given: { system: ChargingSystem; at: Conditions },
  fault: FaultName,
): { system: ChargingSystem; at: Conditions } {
  const { system, at } = given;
  const { alternator, bridge, regulator, harness, battery } = system;
  const phase = Math.floor(3 * random.next()) as 0 | 1 | 2;
  const between = (low: number, high: number) => round(low + (high - low) * random.next());
  const one = <T>(of: Triple<T>, value: T) => of.map((x, k) => (k === phase ? value : x)) as unknown as Triple<T>;
  const withBridge = (change: Partial<typeof bridge>) => ({
    at,
    system: { ...system, bridge: { ...bridge, ...change } },
  });
  const withHarness = (change: Partial<typeof harness>) => ({
    at,
    system: { ...system, harness: { ...harness, ...change } },
  });
  const withAlternator = (change: Partial<typeof alternator>) => ({
    at,
    system: { ...system, alternator: { ...alternator, ...change } },
  });
  const withRegulator = (change: Partial<typeof regulator>) => ({
    at,
    system: { ...system, regulator: { ...regulator, ...change } },
  });
  const withBattery = (change: Partial<typeof battery>) => ({
    at,
    system: { ...system, battery: { ...battery, ...change } },
  });
  switch (fault) {
    case "healthy":
      return given;
    case "upper open":
      return withBridge({ upper: one(bridge.upper, "open") });
    case "lower open":
      return withBridge({ lower: one(bridge.lower, "open") });
    case "upper shorted":
      return withBridge({ upper: one(bridge.upper, "short") });
    case "lower shorted":
      return withBridge({ lower: one(bridge.lower, "short") });
    case "leg open":
      return withBridge({ legOpen: one(bridge.legOpen, true) });
    case "lead open":
      return withHarness({ leadOpen: one(harness.leadOpen, true) });
    case "winding open":
      return withAlternator({ windingOpen: one(alternator.windingOpen, true) });
    case "turns shorted":
      return withAlternator({
        turnShort: {
          winding: phase,
          teethShare: round((1 + Math.floor(3 * random.next())) / 6),
          turnShare: between(0.3, 0.95),
          ohms: between(0.002, 0.015),
          coupling: 0.88,
        },
      });
    case "ground leak":
      return withAlternator({ groundLeak: { winding: phase, position: between(0.05, 0.6), ohms: between(2, 12) } });
    case "phase resistance":
      return withHarness({ phaseOhms: one(harness.phaseOhms, between(0.3, 1.6)) });
    case "B+ resistance":
      return withHarness({ bplusOhms: between(0.15, 0.55) });
    case "ground resistance":
      return withHarness({ groundOhms: between(0.15, 0.5) });
    case "weak rotor":
      return withAlternator({ emfScale: between(0.45, 0.75) });
    case "one phase shunting":
      return withRegulator({ kind: "shunt", stuck: one<"on" | null>([null, null, null], "on") });
    case "overcharge":
      return withRegulator({ stuck: regulator.kind === "series" ? ["on", "on", "on"] : ["off", "off", "off"] });
    case "added load":
      return { system, at: { ...at, loadAmps: round(at.loadAmps + between(8, 22)) } };
    case "sulfated":
      return withBattery({ ohms: round(battery.ohms * between(4, 8)), chargeAmps: round(battery.chargeAmps * 0.25) });
    case "shorted cell":
      return withBattery({ ocvVolts: round(battery.ocvVolts - 2) });
  }
}

const WINDOW = { settlePeriods: 24, measuredPeriods: 30, stepsPerPeriod: 160 };
const LAW = ({ battery }: ChargingSystem, amps: number) =>
  amps >= 0
    ? battery.chargeVolts * Math.asinh(amps / battery.chargeAmps)
    : battery.dischargeVolts * Math.asinh(amps / battery.dischargeAmps);
const INVERSE = ({ battery }: ChargingSystem, volts: number) =>
  volts >= 0
    ? battery.chargeAmps * Math.sinh(volts / battery.chargeVolts)
    : battery.dischargeAmps * Math.sinh(volts / battery.dischargeVolts);

/** Polarization that would put the battery at the regulator's level, by hand: Ohm's law along the B+ run. */
function firstGuess(system: ChargingSystem, at: Conditions): number {
  const { regulator, harness, battery } = system;
  const level = regulator.setVolts + regulator.voltsPerC * (at.regulatorCelsius - 25);
  const drop = regulator.senses === "battery" ? 0 : (harness.bplusOhms + harness.groundOhms) * (at.loadAmps + 1);
  return Math.min(level - drop - battery.ocvVolts - battery.ohms, LAW(system, 8));
}

/** Runs ngspice until the polarization is that of its own mean current: secant with a bracket. */
function solved(system: ChargingSystem, at: Conditions): { startAmps: number; found: Simulated } | null {
  if (system.battery.chargeVolts < 1e-3) {
    const found = simulate(system, at, 0, WINDOW);
    return found === null ? null : { startAmps: 0, found };
  }
  let low: number | undefined;
  let high: number | undefined;
  let volts = firstGuess(system, at);
  let before: { volts: number; miss: number } | undefined;
  for (let k = 0; k < 9; k++) {
    const startAmps = round(INVERSE(system, volts));
    const found = simulate(system, at, startAmps, WINDOW);
    if (found === null) return null;
    const miss = LAW(system, found.ibat) - volts;
    if (Math.abs(miss) < 0.02) return { startAmps, found };
    if (miss > 0) low = volts;
    else high = volts;
    const slope = before === undefined ? Number.NaN : (miss - before.miss) / (volts - before.volts);
    before = { volts, miss };
    let next = slope < -0.2 ? volts - miss / slope : volts + 0.4 * miss;
    if (low !== undefined && high !== undefined && (next <= low || next >= high)) next = 0.5 * (low + high);
    if (low !== undefined && high !== undefined && high - low < 0.004) return null;
    volts = next;
  }
  return null;
}

function main(): void {
  const { values } = parseArgs({
    options: {
      out: { type: "string" },
      count: { type: "string", default: "240" },
      seed: { type: "string", default: "1" },
    },
  });
  if (values.out === undefined || !ngspiceInstalled()) {
    console.error("Give --out FILE; ngspice must be installed.");
    process.exit(1);
  }
  const random = new Random(Number(values.seed));
  const points: Point[] = [];
  let left = 0;
  for (let k = 0; points.length < Number(values.count); k++) {
    const kind: AlternatorKind =
      k % 10 === 8 ? "single-phase full-wave" : k % 20 === 9 ? "single-phase half-wave" : "three-phase";
    const regulated = kind === "three-phase" ? k % 3 !== 0 : kind === "single-phase full-wave" && k % 20 === 8;
    const fault = kind === "three-phase" ? FAULTS[Math.floor(FAULTS.length * random.next())]! : "healthy";
    const { system, at } = broken(random, draw(random, kind, regulated), fault);
    const answer = solved(system, at);
    if (answer === null) {
      left++;
      continue;
    }
    const found = Object.fromEntries(
      Object.entries(answer.found)
        .filter(([name]) => name !== "cpuMs")
        .map(([name, value]) => [name, Number(value.toPrecision(7))]),
    ) as unknown as Simulated;
    points.push({
      what: `${kind}, ${system.regulator.kind}, ${fault}`,
      system,
      at,
      startAmps: answer.startAmps,
      found,
    });
    writeFileSync(
      values.out,
      `{"simulator":"ngspice 39.3","seed":${values.seed},"left":${left},"window":${JSON.stringify(WINDOW)},"points":[\n${points.map((p) => JSON.stringify(p)).join(",\n")}\n]}\n`,
    );
  }
}

main();

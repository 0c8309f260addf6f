import type { AlternatorKind, ChargingSystem, Conditions } from "../core/circuit/types";

/**
 * Writes a charging system as an ngspice netlist, so that an independent simulator can be asked the
 * same question as our own solver. Nothing here uses the solver's formulas: every part is a stock
 * element (coils, sources, diodes, switches, an RC filter) and ngspice does the rest.
 */
export interface RunWindow {
  /** Whole electrical periods before and inside the measured window. */
  readonly settlePeriods: number;
  readonly measuredPeriods: number;
  /** Largest time step, as parts of a period. */
  readonly stepsPerPeriod: number;
}

/** How ngspice goes about it; where one way does not get through, the next is tried. */
export interface Tolerances {
  readonly reltol: number;
  readonly method: "gear" | "trap";
  /** Junction capacitance of the devices [F]. */
  readonly junction: number;
  /** Damps what rings between blocking devices and windings; without it ngspice follows every swing. */
  readonly snubbers: boolean;
}

export const TOLERANCES: readonly Tolerances[] = [
  { reltol: 1e-3, method: "gear", junction: 1e-9, snubbers: true },
  { reltol: 1e-4, method: "gear", junction: 1e-9, snubbers: true },
  { reltol: 1e-3, method: "gear", junction: 1e-8, snubbers: false },
  { reltol: 1e-3, method: "trap", junction: 1e-8, snubbers: false },
  { reltol: 1e-4, method: "gear", junction: 1e-8, snubbers: false },
];

const COPPER_PER_C = 0.00393;
const PHASES = ["a", "b", "c"] as const;
/** Blocking devices leak through this; it also keeps floating nodes solvable [Ω]. */
const OFF_OHMS = 5e4;
/** On-resistance of a controlled device, in series with its diode law [Ω]. */
const GATED_OHMS = 3e-3;
/** Time in which the polarization follows the current [s]. */
const POLARIZATION_SECONDS = 1;
/** Current that keeps a fired device on [A]. */
const HOLDING_AMPS = 2e-3;

/** What the netlist prints, by name: volts, amps, their squares' means, duty. */
export const MEASURES = [
  "vbat", "vbat2", "vreg", "ibat", "ibat2", "irect", "irect_first", "irect_last", "duty",
  "ia2", "ib2", "ic2", "vab2", "vbc2", "vca2", "vplus", "vminus",
] as const; // prettier-ignore
export type Measure = (typeof MEASURES)[number];

/**
 * @param startAmps - Battery current that the polarization has followed up to the start [A]
 */
export function netlist(
  system: ChargingSystem,
  at: Conditions,
  startAmps: number,
  run: RunWindow,
  how: Tolerances,
): string {
  const { alternator, bridge, regulator, harness, battery } = system;
  const hertz = (at.rpm / 60) * alternator.polePairs;
  const start = run.settlePeriods / hertz;
  const end = start + run.measuredPeriods / hertz;
  const step = 1 / hertz / run.stepsPerPeriod;
  const lines: string[] = [`charging circuit at ${at.rpm} rpm`];
  lines.push(
    `.options temp=${at.regulatorCelsius} tnom=25 reltol=${how.reltol} abstol=1e-6 vntol=1e-5 method=${how.method} maxord=2 itl4=100`,
  );
  lines.push(
    `.model dev d is=${bridge.diode.saturationAmps} n=${bridge.diode.ideality} rs=${bridge.diode.seriesOhms} cjo=${how.junction}`,
  );
  lines.push(`.model gate aswitch(cntl_off=0.25 cntl_on=0.75 r_off=1e6 r_on=${GATED_OHMS} log=true)`);
  windings(lines, system, at, hertz);
  for (const [i, p] of PHASES.entries()) {
    // Winding end → stator plug (where the meter clips on) → regulator terminal; Vm senses the line current.
    lines.push(`Rside${p} s${p} m${p} ${harness.leadOpen[i] ? 1e7 : Math.max(harness.statorSideOhms[i]!, 1e-6)}`);
    lines.push(`Rphase${p} m${p} n${p} ${bridge.legOpen[i] ? 1e7 : Math.max(harness.phaseOhms[i]!, 1e-6)}`);
    lines.push(`Vm${p} n${p} ${p} 0`);
    if (how.snubbers) lines.push(`Rsnub${p} ${p} snub${p} 470`, `Csnub${p} snub${p} ret 10n`);
    leg(lines, system, i);
  }
  lines.push(`Vrect plus plus2 0`, `Rplus plus2 pos ${harness.bplusOhms}`, `Rminus 0 ret ${harness.groundOhms}`);
  // Battery: resistance, polarization that follows the slow mean of its current, open-circuit voltage.
  lines.push(`Vbat pos bat1 0`, `Rbat bat1 bat2 ${battery.ohms}`, `Vocv bat3 0 ${battery.ocvVolts}`);
  const law = (volts: number, amps: number) => `${volts}*asinh(v(slow)/${amps})`;
  lines.push(
    `Bpol bat2 bat3 v=v(slow)>0 ? ${law(battery.chargeVolts, battery.chargeAmps)} : ${law(battery.dischargeVolts, battery.dischargeAmps)}`,
  );
  lines.push(
    `Bslow fast 0 v=i(Vbat)`,
    `Rslow fast slow 1k`,
    `Cslow slow 0 ${POLARIZATION_SECONDS / 1000} ic=${startAmps}`,
  );
  lines.push(`Rload pos 0 ${13.5 / Math.max(at.loadAmps, 1e-6)}`);
  // Sensing filter, comparator with hysteresis: "over" is 1 above the upper level, 0 below the lower one.
  const level = regulator.setVolts + regulator.voltsPerC * (at.regulatorCelsius - 25);
  const [high, low] = regulator.senses === "battery" ? ["pos", "0"] : ["plus", "ret"];
  lines.push(`Esense sense 0 ${high} ${low} 1`, `Rfilter sense filt 1k`);
  lines.push(`Cfilter filt 0 ${regulator.filterSeconds / 1000} ic=${battery.ocvVolts}`);
  lines.push(`.model comp sw vt=${level} vh=${regulator.hysteresisHalfVolts} ron=1 roff=1e6`);
  lines.push(`Vone one 0 1`, `Scomp one over filt 0 comp`, `Rcomp over 0 1k`, `Ccomp over 0 1n`);
  lines.push(`Ballow allow 0 v=1-v(over)`);
  lines.push(`.tran ${step} ${end} ${start} ${step} uic`);
  lines.push(...control(start, end));
  return lines.join("\n") + "\n";
}

/** One leg of the bridge, with its regulator device. */
function leg(lines: string[], { alternator, bridge, regulator }: ChargingSystem, i: number): void {
  const p = PHASES[i]!;
  const { upper, lower } = legsPresent(alternator.kind, i);
  const gated = (stuck: "on" | "off" | null, command: string) =>
    stuck === "on" ? "1" : stuck === "off" ? "0" : `v(${command})`;
  device(
    lines,
    `u${p}`,
    p,
    "plus",
    upper ? bridge.upper[i]! : "open",
    bridge.shortOhms,
    regulator.kind === "series" ? gated(regulator.stuck[i]!, "allow") : null,
  );
  device(lines, `l${p}`, "ret", p, lower ? bridge.lower[i]! : "open", bridge.shortOhms, null);
  if (regulator.kind !== "shunt" || !upper) return;
  const gate = gated(regulator.stuck[i]!, "over");
  if (gate !== "0") device(lines, `s${p}`, p, "ret", "ok", bridge.shortOhms, gate);
}

function legsPresent(kind: AlternatorKind, i: number): { upper: boolean; lower: boolean } {
  if (kind === "single-phase full-wave") return { upper: i < 2, lower: i < 2 };
  if (kind === "single-phase half-wave") return { upper: i === 0, lower: false };
  return { upper: true, lower: true };
}

/** A device from `from` to `to`: its diode law, and a switch that latches while it carries current where it is gated. */
function device(
  lines: string[],
  name: string,
  from: string,
  to: string,
  state: "ok" | "open" | "short",
  shortOhms: number,
  gate: string | null,
): void {
  if (state === "short") {
    lines.push(`R${name} ${from} ${to} ${shortOhms}`);
    return;
  }
  lines.push(`R${name}off ${from} ${to} ${OFF_OHMS}`);
  if (state === "open" || gate === "0") return;
  if (gate === null) {
    lines.push(`D${name} ${from} ${to} dev`);
  } else if (gate === "1") {
    lines.push(`D${name} ${from} ${name}k dev`, `R${name}k ${name}k ${to} ${GATED_OHMS}`);
  } else {
    lines.push(
      `D${name} ${from} ${name}k dev`,
      `V${name} ${name}k ${name}s 0`,
      `A${name} ${name}g %gd(${name}s ${to}) gate`,
    );
    lines.push(
      `B${name} ${name}b 0 v=${gate}+min(max(i(V${name})/${HOLDING_AMPS},0),1)`,
      `R${name}b ${name}b ${name}g 1k`,
      `C${name}b ${name}g 0 1n`,
    );
  }
}

function windings(lines: string[], { alternator }: ChargingSystem, at: Conditions, hertz: number): void {
  const single = alternator.kind === "single-phase full-wave" || alternator.kind === "single-phase half-wave";
  const wye = !single && alternator.connection === "wye";
  const ohms = alternator.windingOhms * (1 + COPPER_PER_C * (at.statorCelsius - 20));
  const peak =
    (((alternator.emfPerKrpm * alternator.emfScale * at.rpm) / 1000) * Math.SQRT2) / (wye ? Math.sqrt(3) : 1);
  const coil = (
    name: string,
    from: string,
    to: string,
    winding: number,
    share: number,
    henry = alternator.windingHenry * share,
  ) => {
    const sine = (n: number, part: number) => `sin(0 ${peak * share * part} ${n * hertz} 0 0 ${-120 * winding * n})`;
    lines.push(
      `V1${name} ${from} ${name}1 ${sine(1, 1)}`,
      `V5${name} ${name}1 ${name}2 ${sine(5, alternator.harmonic5)}`,
    );
    lines.push(
      `V7${name} ${name}2 ${name}x ${sine(7, alternator.harmonic7)}`,
      `R${name} ${name}x ${name}y ${ohms * share}`,
      `L${name} ${name}y ${to} ${henry}`,
    );
  };
  for (const [i, p] of PHASES.entries()) {
    if (single && i > 0) {
      lines.push(`Rfloat${p} s${p} 0 1e7`);
      continue;
    }
    const far = single
      ? alternator.kind === "single-phase half-wave"
        ? "ret"
        : "sb"
      : wye
        ? "neutral"
        : `s${PHASES[(i + 1) % 3]}`;
    const short = alternator.turnShort?.winding === i ? alternator.turnShort : null;
    const leak = alternator.groundLeak?.winding === i ? alternator.groundLeak : null;
    if (alternator.windingOpen[i]) {
      lines.push(`Ropen${p} s${p} ${far} 1e7`);
    } else if (leak) {
      // Position 0 is at the winding's line end; the frame is the battery's negative.
      const position = Math.min(Math.max(leak.position, 1e-3), 1 - 1e-3);
      coil(`w${p}n`, `s${p}`, `tap${p}`, i, position);
      coil(`w${p}f`, `tap${p}`, far, i, 1 - position);
      lines.push(`Rleak tap${p} 0 ${leak.ohms}`);
    } else if (short) {
      // Sound teeth; on the damaged teeth the sound and the shorted turns are coupled coils.
      const { teethShare: teeth, turnShare: turns } = short;
      const henry = alternator.windingHenry * teeth;
      coil(`w${p}h`, `s${p}`, `j${p}`, i, 1 - teeth);
      coil(`w${p}r`, `j${p}`, `q${p}`, i, teeth * (1 - turns), henry * (1 - turns) ** 2);
      coil(`w${p}s`, `q${p}`, `z${p}`, i, teeth * turns, henry * turns ** 2);
      lines.push(
        `Rz${p} z${p} ${far} 1e-6`,
        `Kw${p} Lw${p}r Lw${p}s ${short.coupling}`,
        `Rshort q${p} z${p} ${short.ohms}`,
      );
    } else {
      coil(`w${p}`, `s${p}`, far, i, 1);
    }
  }
  if (wye) lines.push("Rneutral neutral 0 1e7");
}

function control(start: number, end: number): string[] {
  const middle = start + (end - start) / 2;
  const mean = (name: Measure, vector: string, from = start, to = end) =>
    `meas tran ${name} avg ${vector} from=${from} to=${to}`;
  return [
    ".control", "set noaskquit", "run",
    "let xvbat=v(pos)", "let xvb2=(v(pos)-12)^2", "let xvreg=v(plus)-v(ret)", "let xib=i(vbat)", "let xib2=i(vbat)^2", "let xir=i(vrect)", "let xo=v(over)",
    ...PHASES.map((p) => `let xph${p}=i(vm${p})^2`),
    "let xab=(v(ma)-v(mb))^2", "let xbc=(v(mb)-v(mc))^2", "let xca=(v(mc)-v(ma))^2", "let xvp=v(plus)-v(pos)", "let xvm=0-v(ret)",
    mean("vbat", "xvbat"), mean("vbat2", "xvb2"), mean("vreg", "xvreg"), mean("ibat", "xib"), mean("ibat2", "xib2"), mean("irect", "xir"),
    mean("irect_first", "xir", start, middle), mean("irect_last", "xir", middle, end), mean("duty", "xo"),
    mean("ia2", "xpha"), mean("ib2", "xphb"), mean("ic2", "xphc"), mean("vab2", "xab"), mean("vbc2", "xbc"), mean("vca2", "xca"),
    mean("vplus", "xvp"), mean("vminus", "xvm"),
    "quit", ".endc", ".end",
  ]; // prettier-ignore
}

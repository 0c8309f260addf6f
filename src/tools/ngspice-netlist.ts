import type { ChargingSystem, Conditions } from "../core/circuit/types";

/**
 * Writes a charging system as an ngspice netlist, so that an independent simulator can be asked the
 * same question as our own solver. Nothing here uses the solver's formulas: every part is a stock
 * element (coils, diodes, switches with hysteresis, an RC filter) and ngspice does the rest.
 */
export interface RunWindow {
  /** Whole electrical periods before and inside the measured window. */
  readonly settlePeriods: number;
  readonly measuredPeriods: number;
  /** Largest time step, as parts of a period. */
  readonly stepsPerPeriod: number;
}

export const COPPER_PER_C = 0.00393;
const PHASES = ["a", "b", "c"] as const;
/** Blocking devices leak through this; it also keeps floating nodes solvable [Ω]. */
const OFF_OHMS = 5e4;
/** On-resistance of a controlled device, in series with its diode law [Ω]. */
const GATED_OHMS = 3e-3;
/** Time in which the polarization follows the current [s]. */
const POLARIZATION_SECONDS = 1;
/** Current that keeps a fired device on [A]. */
const HOLDING_AMPS = 2e-3;

/** What each measured name stands for, in the order in which the netlist prints it. */
export const MEASURES = [
  "vbat",
  "vbat2",
  "vreg",
  "ibat",
  "ibat2",
  "irect",
  "irect_first",
  "irect_last",
  "duty",
  "ia2",
  "ib2",
  "ic2",
  "vab2",
  "vbc2",
  "vca2",
  "vplus",
  "vminus",
] as const;
export type Measure = (typeof MEASURES)[number];

export function netlist(system: ChargingSystem, at: Conditions, startAmps: number, run: RunWindow): string {
  const { alternator, bridge, regulator, harness, battery } = system;
  const hertz = (at.rpm / 60) * alternator.polePairs;
  const start = run.settlePeriods / hertz;
  const end = start + run.measuredPeriods / hertz;
  const lines: string[] = [`charging circuit at ${at.rpm} rpm`];
  lines.push(
    `.options temp=${at.regulatorCelsius} tnom=25 reltol=1e-4 abstol=1e-6 vntol=1e-5 method=gear maxord=2 itl4=100`,
  );
  lines.push(
    `.model dev d is=${bridge.diode.saturationAmps} n=${bridge.diode.ideality} rs=${bridge.diode.seriesOhms} cjo=1e-9`,
  );
  lines.push(`.model gate aswitch(cntl_off=0.25 cntl_on=0.75 r_off=1e6 r_on=${GATED_OHMS} log=true)`);
  windings(lines, system, at, hertz);
  for (const [i, p] of PHASES.entries()) {
    // Winding end → stator plug (where the meter clips on) → regulator terminal; Vm senses the line current.
    lines.push(`Rside${p} s${p} m${p} ${harness.leadOpen[i] ? 1e7 : Math.max(harness.statorSideOhms[i]!, 1e-6)}`);
    lines.push(`Rphase${p} m${p} n${p} ${bridge.legOpen[i] ? 1e7 : Math.max(harness.phaseOhms[i]!, 1e-6)}`);
    lines.push(`Vm${p} n${p} ${p} 0`);
    device(
      lines,
      `u${p}`,
      p,
      "plus",
      bridge.upper[i]!,
      bridge.shortOhms,
      gateOf(regulator.kind === "series", regulator.stuck[i]!, "allow"),
    );
    device(lines, `l${p}`, "ret", p, bridge.lower[i]!, bridge.shortOhms, null);
    if (regulator.kind === "shunt") {
      const gate = gateOf(true, regulator.stuck[i]!, "over");
      if (gate !== "0") device(lines, `s${p}`, p, "ret", "ok", bridge.shortOhms, gate);
    }
  }
  lines.push(`Vrect plus plus2 0`, `Rplus plus2 pos ${harness.bplusOhms}`, `Rminus 0 ret ${harness.groundOhms}`);
  lines.push(
    `Vbat pos bat1 0`,
    `Rbat bat1 bat2 ${battery.ohms}`,
    `Bpol bat2 bat3 v=v(slow)>0 ? ${battery.chargeVolts}*asinh(v(slow)/${battery.chargeAmps}) : ${battery.dischargeVolts}*asinh(v(slow)/${battery.dischargeAmps})`,
    `Vocv bat3 0 ${battery.ocvVolts}`,
    `Bslow fast 0 v=i(Vbat)`,
    `Rslow fast slow 1k`,
    `Cslow slow 0 ${POLARIZATION_SECONDS / 1000} ic=${startAmps}`,
  );
  lines.push(`Rload pos 0 ${13.5 / Math.max(at.loadAmps, 1e-6)}`);
  // Sensing filter, comparator with hysteresis: "over" is 1 above the upper level, 0 below the lower one.
  const level = regulator.setVolts + regulator.voltsPerC * (at.regulatorCelsius - 25);
  const sensed = regulator.senses === "battery" ? ["pos", "0"] : ["plus", "ret"];
  lines.push(
    `Esense sense 0 ${sensed[0]} ${sensed[1]} 1`,
    `Rfilter sense filt 1k`,
    `Cfilter filt 0 ${regulator.filterSeconds / 1000} ic=${battery.ocvVolts}`,
  );
  lines.push(`.model comp sw vt=${level} vh=${regulator.hysteresisHalfVolts} ron=1 roff=1e6`);
  lines.push(
    `Vone one 0 1`,
    `Scomp one over filt 0 comp`,
    `Rcomp over 0 1k`,
    `Ccomp over 0 1n`,
    `Ballow allow 0 v=1-v(over)`,
    `Vzero zero 0 0`,
  );
  lines.push(`.tran ${1 / hertz / run.stepsPerPeriod} ${end} ${start} ${1 / hertz / run.stepsPerPeriod} uic`);
  lines.push(...control(start, end));
  return lines.join("\n") + "\n";
}

function gateOf(gated: boolean, stuck: "on" | "off" | null, command: string): string | null {
  if (!gated) return null;
  return stuck === "on" ? "1" : stuck === "off" ? "0" : `v(${command})`;
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
  if (state === "open") return;
  if (gate === null || gate === "1") {
    lines.push(`D${name} ${from} ${to} dev`);
    if (gate === "1") lines[lines.length - 1] = `D${name} ${from} ${name}k dev\nR${name}k ${name}k ${to} ${GATED_OHMS}`;
    return;
  }
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

function windings(lines: string[], { alternator }: ChargingSystem, at: Conditions, hertz: number): void {
  const hot = 1 + COPPER_PER_C * (at.statorCelsius - 20);
  const peak =
    (alternator.emfPerKrpm * alternator.emfScale * at.rpm * Math.SQRT2) /
    1000 /
    (alternator.connection === "wye" ? Math.sqrt(3) : 1);
  for (const [i, p] of PHASES.entries()) {
    const far = alternator.connection === "wye" ? "neutral" : `s${PHASES[(i + 1) % 3]}`;
    const volts = (share: number) =>
      [1, 5, 7].map((n) => {
        const part = peak * share * (n === 1 ? 1 : n === 5 ? alternator.harmonic5 : alternator.harmonic7);
        return `sin(0 ${part} ${n * hertz} 0 0 ${-120 * i * n})`;
      });
    const ohms = alternator.windingOhms * hot;
    if (alternator.windingOpen[i]) {
      lines.push(`Ropen${p} s${p} ${far} 1e7`);
      continue;
    }
    const short = alternator.turnShort?.winding === i ? alternator.turnShort : null;
    const leak = alternator.groundLeak?.winding === i ? alternator.groundLeak : null;
    const emf = (name: string, from: string, to: string, share: number) => {
      const [e1, e5, e7] = volts(share);
      lines.push(
        `V1${name} ${from} ${name}1 ${e1}`,
        `V5${name} ${name}1 ${name}2 ${e5}`,
        `V7${name} ${name}2 ${to} ${e7}`,
      );
    };
    const coil = (name: string, from: string, to: string, share: number) => {
      emf(name, from, `${name}x`, share);
      lines.push(
        `R${name} ${name}x ${name}y ${ohms * share}`,
        `L${name} ${name}y ${to} ${alternator.windingHenry * share}`,
      );
    };
    if (leak) {
      // The line end comes first: position 0 is at the phase's own terminal.
      coil(`w${p}n`, `s${p}`, `tap${p}`, Math.max(leak.position, 1e-3));
      coil(`w${p}f`, `tap${p}`, far, Math.max(1 - leak.position, 1e-3));
      lines.push(`Rleak tap${p} 0 ${leak.ohms}`);
    } else if (short) {
      // Healthy teeth; on the damaged teeth the sound and the shorted turns are coupled coils.
      const t = short.teethShare;
      const g = short.turnShare;
      const henry = alternator.windingHenry * t;
      if (t < 1) coil(`w${p}h`, `s${p}`, `j${p}`, 1 - t);
      else lines.push(`R${p}j s${p} j${p} 1e-6`);
      emf(`w${p}r`, `j${p}`, `k${p}`, t * (1 - g));
      lines.push(`Rw${p}r k${p} k${p}1 ${ohms * t * (1 - g)}`, `Lw${p}r k${p}1 q${p} ${henry * (1 - g) ** 2}`);
      emf(`w${p}s`, `q${p}`, `o${p}`, t * g);
      lines.push(
        `Rw${p}s o${p} o${p}1 ${ohms * t * g}`,
        `Lw${p}s o${p}1 z${p} ${henry * g ** 2}`,
        `Rz${p} z${p} ${far} 1e-6`,
      );
      lines.push(`Kw${p} Lw${p}r Lw${p}s ${short.coupling}`, `Rshort q${p} z${p} ${short.ohms}`);
    } else {
      coil(`w${p}`, `s${p}`, far, 1);
    }
  }
  if (alternator.connection === "wye") lines.push("Rneutral neutral 0 1e7");
}

function control(start: number, end: number): string[] {
  const middle = start + (end - start) / 2;
  const mean = (name: string, vector: string, from = start, to = end) =>
    `meas tran ${name} avg ${vector} from=${from} to=${to}`;
  return [
    ".control",
    "set noaskquit",
    "run",
    "let xvbat=v(pos)",
    "let xvb2=(v(pos)-12)^2",
    "let xvreg=v(plus)-v(ret)+0",
    "let xib=i(vbat)",
    "let xib2=i(vbat)^2",
    "let xir=i(vrect)",
    "let xo=v(over)",
    ...PHASES.map((p) => `let xph${p}=i(vm${p})^2`),
    "let xab=(v(ma)-v(mb))^2",
    "let xbc=(v(mb)-v(mc))^2",
    "let xca=(v(mc)-v(ma))^2",
    "let xvp=v(plus)-v(pos)",
    "let xvm=0-v(ret)",
    mean("vbat", "xvbat"),
    mean("vbat2", "xvb2"),
    mean("vreg", "xvreg"),
    mean("ibat", "xib"),
    mean("ibat2", "xib2"),
    mean("irect", "xir"),
    mean("irect_first", "xir", start, middle),
    mean("irect_last", "xir", middle, end),
    mean("duty", "xo"),
    mean("ia2", "xpha"),
    mean("ib2", "xphb"),
    mean("ic2", "xphc"),
    mean("vab2", "xab"),
    mean("vbc2", "xbc"),
    mean("vca2", "xca"),
    mean("vplus", "xvp"),
    mean("vminus", "xvm"),
    "quit",
    ".endc",
    ".end",
  ];
}

import type { Alternator, Triple } from "../../core/circuit/types";
import { COPPER_PER_C, windingPeakVolts } from "../../core/circuit/stator-network";
import type { Specimen } from "./faulty-system";

/**
 * Line-to-line AC of the unplugged stator, rms, from phasors: shorted turns carry a current of their
 * own and pull their neighbours on the same teeth down; in delta the uneven sum drives a current round
 * the loop.
 */
type Complex = readonly [re: number, im: number];
const add = (a: Complex, b: Complex): Complex => [a[0] + b[0], a[1] + b[1]];
const sub = (a: Complex, b: Complex): Complex => [a[0] - b[0], a[1] - b[1]];
const mul = (a: Complex, b: Complex): Complex => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
const div = (a: Complex, b: Complex): Complex => {
  const size = b[0] ** 2 + b[1] ** 2;
  return [(a[0] * b[0] + a[1] * b[1]) / size, (a[1] * b[0] - a[0] * b[1]) / size];
};
const abs = (a: Complex): number => Math.hypot(a[0], a[1]);
const times = (a: Complex, k: number): Complex => [a[0] * k, a[1] * k];

/** Emf and inner impedance of one winding as seen at its ends, shorted turns folded in. */
function windingSource(
  alternator: Alternator,
  k: 0 | 1 | 2,
  rpm: number,
  celsius: number,
): { emf: Complex; impedance: Complex } {
  const omega = ((2 * Math.PI * rpm) / 60) * alternator.polePairs;
  const ohms = alternator.windingOhms * (1 + COPPER_PER_C * (celsius - 20));
  const angle = (-2 * Math.PI * k) / 3;
  const rms = windingPeakVolts(alternator, rpm) / Math.SQRT2;
  const emf: Complex = [rms * Math.cos(angle), rms * Math.sin(angle)];
  const short = alternator.turnShort;
  if (short?.winding !== k) return { emf, impedance: [ohms, omega * alternator.windingHenry] };
  const { teethShare: t, turnShare: u } = short;
  const onTeeth = alternator.windingHenry * t;
  const shorted: Complex = [ohms * t * u, omega * onTeeth * u ** 2];
  const sound: Complex = [ohms * (1 - t * u), omega * (alternator.windingHenry * (1 - t) + onTeeth * (1 - u) ** 2)];
  const mutual: Complex = [0, omega * short.coupling * onTeeth * u * (1 - u)];
  const loop = add(shorted, [short.ohms, 0]);
  const shortedEmf = times(emf, t * u);
  const soundEmf = times(emf, 1 - t * u);
  // V across the winding at outer current I: the shorted loop's current is (e_s + r·I − jωM·I)/loop.
  const drop = sub([short.ohms, 0], mutual);
  const openEmf = add(soundEmf, mul(div(shortedEmf, loop), drop));
  const impedance = sub(add(sound, [short.ohms, 0]), div(mul(drop, drop), loop));
  return { emf: openEmf, impedance };
}

export function noLoadVolts({ system, machine }: Specimen, rpm: number): Triple<number> {
  const { alternator, harness } = system;
  const sources = ([0, 1, 2] as const).map((k) => windingSource(alternator, k, rpm, machine.statorBench));
  const dead = 0.0012 * ((alternator.emfPerKrpm * rpm) / 1000);
  const parted = (k: number) => harness.leadOpen[k] === true;
  if (alternator.connection === "wye") {
    return pairs((a, b) =>
      parted(a) || parted(b) || alternator.windingOpen[a] || alternator.windingOpen[b]
        ? dead
        : abs(sub(sources[a]!.emf, sources[b]!.emf)),
    );
  }
  const open = alternator.windingOpen.indexOf(true);
  const sum = sources.reduce<Complex>((s, w) => add(s, w.emf), [0, 0]);
  const around = sources.reduce<Complex>((s, w) => add(s, w.impedance), [0, 0]);
  const loop: Complex = open >= 0 ? [0, 0] : div(sum, around);
  const across = sources.map((w) => sub(w.emf, mul(w.impedance, loop)));
  return pairs((a, b) => {
    if (parted(a) || parted(b)) return dead;
    if (a === open) return abs(add(across[b]!, across[(b + 1) % 3]!));
    return abs(across[a]!);
  });
}

function pairs(between: (a: number, b: number) => number): Triple<number> {
  return [between(0, 1), between(1, 2), between(2, 0)];
}

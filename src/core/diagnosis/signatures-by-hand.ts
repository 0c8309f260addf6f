import { FEATURES, type Feature } from "./running-features";

/**
 * First signatures of battery and running readings, one line a fault: centre and spread of each
 * feature, judged from the physics of the circuit.
 */
type Line = Partial<Record<Feature, readonly [number, number]>>;

const BASE: Line = {
  rest: [-0.35, 0.25],
  "load-resistance": [Math.log(5.2), 0.3],
  "recharged-rest": [0, 0.08],
  cranking: [9.9, 0.6],
  idle: [13.2, 0.7],
  test: [14.2, 0.4],
  "battery-current": [0.15, 0.12],
  "key-on-load": [Math.log(0.5), 0.25],
  "bplus-drop": [Math.log(0.2), 0.5],
  "ground-drop": [Math.log(0.1), 0.5],
  "drop-current": [0.65, 0.2],
  ripple: [Math.log(0.05), 1.2],
  "loaded-highest": [Math.log(25), 0.7],
  "loaded-middle": [-0.15, 0.25],
  "loaded-lowest": [-0.25, 0.3],
};
const LOW: Line = { rest: [-0.5, 0.35], idle: [12, 0.4] };
const DEAD: Line = { ...LOW, idle: [11.9, 0.3], test: [11.9, 0.3], "battery-current": [-0.4, 0.2], "bplus-drop": [Math.log(0.005), 0.5], "ground-drop": [Math.log(0.005), 0.5], "drop-current": [0, 0.02], ripple: [Math.log(0.004), 0.3] };

export const SIGNATURES_BY_HAND: Readonly<Record<string, Line>> = {
  healthy: { ...BASE, rest: [-0.12, 0.12], "battery-current": [0.1, 0.08] },
  "battery-sulfated": { ...BASE, rest: [-0.45, 0.3], "load-resistance": [Math.log(17), 0.45], "recharged-rest": [-0.15, 0.15], cranking: [7, 1.5], "battery-current": [0.05, 0.06], ripple: [Math.log(0.3), 1] },
  "battery-shorted-cell": { ...BASE, rest: [-2.3, 0.25], "recharged-rest": [-2.1, 0.15], cranking: [8.2, 0.7], idle: [11.7, 0.6], test: [12.4, 0.4], "battery-current": [0.45, 0.15], ripple: [Math.log(0.012), 0.6] },
  "parasitic-drain": { ...BASE, rest: [-0.6, 0.35] },
  "excessive-load": { ...BASE, ...LOW, idle: [11.9, 0.3], test: [12.6, 0.6], "battery-current": [0, 0.15], "key-on-load": [Math.log(1), 0.25], "drop-current": [0.8, 0.15], ripple: [Math.log(0.012), 0.5] },
  "regulator-overcharge": { ...BASE, rest: [-0.02, 0.08], test: [15.5, 0.4], idle: [13.8, 1.0], "battery-current": [0.25, 0.1], ripple: [Math.log(0.02), 0.8], "loaded-highest": [Math.log(15), 0.3], "loaded-middle": [-0.02, 0.03], "loaded-lowest": [-0.04, 0.04] },
  "regulator-shunt-stuck-one-phase": { ...BASE, ...LOW, test: [12.8, 0.6], "battery-current": [0, 0.12], ripple: [Math.log(0.11), 0.4], "loaded-highest": [Math.log(12.5), 0.08], "loaded-middle": [-0.25, 0.06], "loaded-lowest": [-0.28, 0.06], "drop-current": [0.45, 0.15] },
  "regulator-shunt-stuck-all-phases": { ...BASE, ...DEAD, "loaded-highest": [Math.log(1.9), 0.2], "loaded-middle": [0, 0.05], "loaded-lowest": [-0.03, 0.05] },
  "regulator-series-no-fire": { ...BASE, ...DEAD, "loaded-highest": [Math.log(70), 0.4], "loaded-middle": [0, 0.02], "loaded-lowest": [0, 0.02] },
  "diode-open": { ...BASE, rest: [-0.35, 0.3], ripple: [Math.log(0.11), 0.5], idle: [12.8, 0.8], "loaded-middle": [-0.15, 0.2], "loaded-lowest": [-0.7, 0.45], "loaded-highest": [Math.log(42), 0.4] },
  "diode-shorted/upper": { ...BASE, ...LOW, test: [12.7, 0.6], "battery-current": [0, 0.12], ripple: [Math.log(0.13), 0.3], "loaded-highest": [Math.log(12.5), 0.08], "loaded-middle": [-0.25, 0.06], "loaded-lowest": [-0.27, 0.06], "drop-current": [0.42, 0.15] },
  "diode-shorted/lower": { ...BASE, ...LOW, test: [12.7, 0.6], "battery-current": [0, 0.12], ripple: [Math.log(0.12), 0.3], "loaded-highest": [Math.log(12.5), 0.08], "loaded-middle": [-0.28, 0.06], "loaded-lowest": [-0.3, 0.06], "drop-current": [0.42, 0.15] },
  "diode-leg-open": { ...BASE, ...LOW, test: [13.2, 0.6], "battery-current": [0.05, 0.12], ripple: [Math.log(0.09), 0.4], "loaded-highest": [Math.log(60), 0.3], "loaded-middle": [-0.25, 0.1], "loaded-lowest": [-1.4, 0.2], "drop-current": [0.5, 0.12] },
  "stator-turns-shorted/few": { ...BASE, test: [14, 0.4] },
  "stator-turns-shorted/some": { ...BASE, idle: [12.8, 0.6], test: [13.9, 0.4] },
  "stator-turns-shorted/many": { ...BASE, idle: [12.5, 0.7], test: [13.7, 0.6] },
  "stator-phase-open/lead": { ...BASE, ...LOW, test: [13.3, 0.8], "battery-current": [0.02, 0.12], ripple: [Math.log(0.1), 0.4], "loaded-highest": [Math.log(16), 0.3], "loaded-middle": [-0.65, 0.1], "loaded-lowest": [-0.7, 0.1], "drop-current": [0.5, 0.12] },
  "stator-phase-open/delta-winding": { ...BASE, idle: [12.6, 0.7], test: [13.8, 0.6], ripple: [Math.log(0.11), 0.4], "loaded-highest": [Math.log(14), 0.1], "loaded-middle": [-0.02, 0.03], "loaded-lowest": [-0.48, 0.08] },
  "stator-ground-leak": { ...BASE, test: [14.1, 0.4], "loaded-middle": [-0.2, 0.2], "loaded-lowest": [-0.3, 0.25] },
  "rotor-demagnetised/little": { ...BASE, ...LOW, test: [13.9, 0.5] },
  "rotor-demagnetised/half": { ...BASE, ...LOW, idle: [11.8, 0.3], test: [13.2, 0.7], "battery-current": [0, 0.15], "loaded-highest": [Math.log(13), 0.2], "loaded-middle": [-0.03, 0.05], "loaded-lowest": [-0.05, 0.08], ripple: [Math.log(0.02), 0.8] },
  "rotor-demagnetised/much": { ...BASE, ...LOW, idle: [11.6, 0.3], test: [12.2, 0.6], "battery-current": [-0.1, 0.15], "loaded-highest": [Math.log(11), 0.1], "loaded-middle": [-0.01, 0.02], "loaded-lowest": [-0.02, 0.03], "drop-current": [0.35, 0.12], ripple: [Math.log(0.01), 0.4] },
  "high-resistance-bplus": { ...BASE, ...LOW, test: [12.8, 0.9], "battery-current": [-0.05, 0.2], "bplus-drop": [Math.log(3.5), 0.8], "drop-current": [0.4, 0.25], "ground-drop": [Math.log(0.06), 0.6] },
  "high-resistance-ground": { ...BASE, ...LOW, test: [12.6, 0.8], "battery-current": [-0.05, 0.2], "ground-drop": [Math.log(2.2), 0.6], "drop-current": [0.4, 0.2], "bplus-drop": [Math.log(0.12), 0.6] },
  "high-resistance-phase": { ...BASE, idle: [12.5, 0.6], test: [13.9, 0.5], "loaded-middle": [-0.2, 0.2], "loaded-lowest": [-0.5, 0.4] },
  "main-fuse-blown": { ...BASE, ...DEAD, "bplus-drop": [Math.log(3), 0.6], "loaded-highest": [Math.log(14), 0.3] },
  "joint-fails-hot": BASE,
};

export function handComponents(name: string): { mean: Float64Array; covariance: Float64Array } {
  const line = SIGNATURES_BY_HAND[name];
  if (!line) throw new Error(`No signature "${name}".`);
  const n = FEATURES.length;
  const mean = new Float64Array(n);
  const covariance = new Float64Array((n * (n + 1)) / 2);
  FEATURES.forEach((feature, i) => {
    const [centre, spread] = line[feature] ?? BASE[feature]!;
    mean[i] = centre;
    covariance[(i * (i + 1)) / 2 + i] = spread ** 2;
  });
  return { mean, covariance };
}

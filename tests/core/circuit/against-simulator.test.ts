import { unregulated } from "../../../src/core/circuit/averaged";
import { ngspiceInstalled, simulate } from "../../../src/tools/ngspice";
import { compared, mean, storedPoints, type Compared } from "./stored-points";

const stored = storedPoints();
const answers = stored.points.map(compared);
const of = (kind: Compared["kind"], fault?: string) =>
  answers.filter((a) => a.kind === kind && (fault === undefined || a.fault === fault));
const faults = [...new Set(answers.map(({ fault }) => fault))].sort();
/** Below this a current is judged in amperes. */
const SMALL_AMPS = 0.05;

describe(`against ${stored.simulator}, runs stored with the tests`, () => {
  it("[stored runs] at least 200 operating points, every fault among them", () => {
    expect(stored.points.length).toBeGreaterThanOrEqual(200);
    expect(faults.length).toBeGreaterThanOrEqual(19);
  });

  it("[stored runs, unregulated] current within 1 % in the mean and 3 % or 0.05 A at most", () => {
    const errors = of("unregulated");
    expect(errors.length).toBeGreaterThan(90);
    expect(mean(errors.map(({ amps, share }) => (amps <= SMALL_AMPS ? 0 : share)))).toBeLessThan(0.01);
    for (const { fault, amps, share } of errors)
      expect({ fault, fits: amps <= SMALL_AMPS || share <= 0.03 }).toEqual({ fault, fits: true });
  });

  it("[stored runs, regulator at work] battery voltage within 0.05 V and current within 2 % in the mean", () => {
    const errors = of("regulating");
    expect(errors.length).toBeGreaterThan(60);
    expect(mean(errors.map(({ volts }) => volts))).toBeLessThan(0.05);
    expect(mean(errors.map(({ share }) => share))).toBeLessThan(0.02);
  });

  for (const fault of faults) {
    it(`[stored runs, ${fault}] each fault apart: voltage within 0.1 V and current within 4 % in the mean`, () => {
      const errors = answers.filter((a) => a.fault === fault && a.kind !== "shorted battery");
      expect(errors.length).toBeGreaterThan(0);
      expect(mean(errors.map(({ volts }) => volts))).toBeLessThan(0.1);
      expect(mean(errors.map(({ amps, share }) => (amps <= SMALL_AMPS ? 0 : share)))).toBeLessThan(0.04);
    });
  }

  it("[stored runs] a shorted upper device with a fired shunt: both sides see the battery emptied with over 100 A", () => {
    for (const { ours } of of("shorted battery")) expect(ours.batteryAmps).toBeLessThan(-100);
  });

  it("[stored runs, closed form] where its flag is up: within 1 % in the mean and 3 % at most", () => {
    const errors: number[] = [];
    stored.points.forEach(({ system, at, found }, k) => {
      const quick = unregulated(system, at);
      if (answers[k]!.kind !== "unregulated" || !quick.valid) return;
      const amps = Math.abs(quick.rectifierAmps - found.irect);
      errors.push(amps <= SMALL_AMPS ? 0 : amps / Math.abs(found.irect));
    });
    expect(errors.length).toBeGreaterThan(30);
    expect(mean(errors)).toBeLessThan(0.01);
    expect(Math.max(...errors)).toBeLessThan(0.03);
  });

  it("[stored runs, ripple and AC] unregulated: battery ripple current within 5 % or 0.1 A, AC between lines within 2 % or 0.3 V", () => {
    stored.points.forEach(({ what, found }, k) => {
      const { kind, ours } = answers[k]!;
      if (kind !== "unregulated") return;
      const ripple = Math.sqrt(Math.max(0, found.ibat2 - found.ibat ** 2));
      const lines = [found.vab2, found.vbc2, found.vca2].map(Math.sqrt);
      // A terminal without its phase floats, and a blocked half-wave coil rings against the simulator's snubbers.
      const floating = what.startsWith("single-phase") || what.endsWith("open");
      const fits = {
        what,
        ripple: Math.abs(ours.batteryAmpsAcRms - ripple) <= Math.max(0.05 * ripple, 0.1),
        lines:
          floating ||
          lines.every((volts, line) => Math.abs(ours.lineVoltsRms[line]! - volts) <= Math.max(0.02 * volts, 0.3)),
      };
      expect(fits).toEqual({ what, ripple: true, lines: true });
    });
  });
});

const here = ngspiceInstalled();
describe(
  here ? "against the ngspice installed here" : "ngspice is not installed here: its stored runs were replayed",
  () => {
    // One machine that limits itself, one whose regulator works, one broken: the stored runs can be made again.
    const chosen = ["unregulated", "regulating"].flatMap((kind) => {
      const k = answers.findIndex((a) => a.kind === kind && a.fault === "healthy");
      return k < 0 ? [] : [k];
    });
    const broken = answers.findIndex(
      (a) => a.kind === "unregulated" && a.fault !== "healthy" && a.ours.rectifierAmps > 3,
    );
    for (const k of [...chosen, broken]) {
      const { what, system, at, startAmps, found } = stored.points[k]!;
      (here ? it : it.skip)(`[ngspice, run again] ${what}: as stored, and as we solve it`, () => {
        const again = simulate(system, at, startAmps, stored.window);
        expect(again).not.toBeNull();
        expect(Math.abs(again!.vbat - found.vbat)).toBeLessThan(0.03);
        expect(Math.abs(again!.irect - found.irect)).toBeLessThan(Math.max(0.05, 0.02 * Math.abs(found.irect)));
        expect(Math.abs(answers[k]!.ours.batteryVolts - again!.vbat)).toBeLessThan(0.1);
      });
    }
  },
);

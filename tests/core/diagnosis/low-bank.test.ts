import { diagnose } from "../../../src/core/diagnosis/diagnose";
import { diodeCheck, jobOf, MACHINE_IN_ORDER, READINGS_IN_ORDER } from "./jobs";

/**
 * One bank of three reads near 0.5 V, the other near 0.1 V. Judged by a fixed "0.5 V" rule the part is
 * condemned; in a circuit with a second path in parallel with the bank it is good.
 */
const LOW_BANK = diodeCheck([
  [0.104, 0.108, 0.105],
  [0.512, 0.515, 0.51],
  ["OL", "OL", "OL"],
  ["OL", "OL", "OL"],
]);
const ONE_DIFFERS = { ...LOW_BANK, "upper-forward-b": 0.49 };
const PLAIN = diodeCheck([
  [0.51, 0.515, 0.508],
  [0.512, 0.515, 0.51],
  ["OL", "OL", "OL"],
  ["OL", "OL", "OL"],
]);
/** Everything else that was read of the machine is in order. */
const RUNS_WELL = { ...MACHINE_IN_ORDER, ...READINGS_IN_ORDER };

const regulator = (values: Parameters<typeof jobOf>[0], knownGood: Parameters<typeof jobOf>[0][] = []) =>
  diagnose(jobOf(values), { knownGood: knownGood.map(jobOf) })!.parts.find((p) => p.part === "regulator-rectifier")!;

describe("a bank that reads near 0.1 V [common practice values]", () => {
  it("is unproven with nothing known of the circuit: never faulty, never cleared", () => {
    expect(regulator({ ...LOW_BANK }).state).toBe("unproven");
    expect(regulator({ ...MACHINE_IN_ORDER, ...READINGS_IN_ORDER, ...LOW_BANK }).state).toBe("unproven");
  });
  it("is cleared by a known-good part that reads the same", () => {
    expect(regulator({ ...LOW_BANK, ...RUNS_WELL }, [LOW_BANK]).state).toBe("serviceable");
  });
  it("is cleared where the circuit inside is known to have the parallel path", () => {
    expect(regulator({ ...LOW_BANK, ...RUNS_WELL, "bridge-kind": "parallel path" }).state).toBe("serviceable");
  });
  it("is not cleared, and not condemned, by a known-good part that reads 0.5 V", () => {
    const state = regulator({ ...LOW_BANK, ...RUNS_WELL }, [PLAIN]).state;
    expect(["suspect", "unproven"]).toContain(state);
  });
  it("is not cleared where the circuit is known to be plain diodes", () => {
    const state = regulator({ ...LOW_BANK, ...RUNS_WELL, "bridge-kind": "plain diodes" }).state;
    expect(["suspect", "unproven"]).toContain(state);
  });
  it("with one of three differing is not cleared, whatever is known", () => {
    for (const known of [[], [LOW_BANK]]) {
      expect(["suspect", "unproven"]).toContain(regulator({ ...ONE_DIFFERS, ...RUNS_WELL }, known).state);
    }
    expect(["suspect", "unproven"]).toContain(
      regulator({ ...ONE_DIFFERS, ...RUNS_WELL, "bridge-kind": "parallel path" }).state,
    );
  });
  it("a plain bank near 0.5 V is cleared without any reference", () => {
    expect(regulator({ ...PLAIN, ...RUNS_WELL }).state).toBe("serviceable");
  });
});

describe("a device that fails the diode check", () => {
  it("shorted: near 0 V both ways makes the part faulty", () => {
    const shorted = { ...LOW_BANK, "lower-forward-c": 0.002, "lower-reverse-c": 0.001 };
    const verdict = regulator({ ...shorted, "bridge-kind": "parallel path" });
    expect(verdict.state).toBe("faulty");
    expect(verdict.fault).toBe("diode-shorted");
  });
  it("open among conducting sisters makes the part faulty", () => {
    const verdict = regulator({ ...PLAIN, "lower-forward-a": "OL" });
    expect(verdict.state).toBe("faulty");
    expect(verdict.fault).toBe("diode-open");
  });
  it("a bank of which all three block is not called open: the circuit may be made so", () => {
    const blocked = { ...PLAIN, "upper-forward-a": "OL", "upper-forward-b": "OL", "upper-forward-c": "OL" };
    expect(regulator(blocked).state).not.toBe("faulty");
  });
});

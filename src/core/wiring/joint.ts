import { judge, type JudgeOptions } from "../judgement/judge";
import type { Judged, Limit } from "../judgement/types";
import type { Ohm, Watt } from "../quantity";
import type { Measured } from "../readings/types";
import { fail, ok, type Result } from "../result";
import { signed } from "../signed";
import { LEAST_AMPS } from "./run-limits";

/** What a voltage drop says of a connection or a run. */
export interface Joint {
  readonly ohms: Ohm;
  /** Heat in it. */
  readonly watts: Watt;
  /** Drop over the allowed drop [1]. */
  readonly share: number;
  readonly judged: Judged;
}

/**
 * Resistance, heat and judgement of a connection from its voltage drop under current.
 *
 * @param drop - Voltage drop [V]; its sign only says how the leads stood
 * @param amps - Current through it [A]; its sign likewise
 * @param limit - Allowed drop [V]
 * @returns The joint; `refused` where too little current flowed to tell
 * @source common-practice R = U/I, P = U·I
 */
export function joint(drop: Measured, amps: number, limit: Limit, options: JudgeOptions = {}): Result<Joint> {
  if (drop.kind !== "number") {
    return fail({ code: "missing", what: "voltage drop", expected: "a number in V" });
  }
  const current = Math.abs(amps);
  if (!(current >= LEAST_AMPS)) {
    return fail({
      code: "refused",
      what: "voltage drop",
      why: `with ${signed(String(Number(current.toPrecision(3))))} A through it a drop says nothing`,
      instead: `load the circuit to ${LEAST_AMPS} A or more and read again`,
    });
  }
  const volts = Math.abs(drop.value);
  const judged = judge(
    { label: "Voltage drop", unit: "V", decimals: 3, meter: "dc volts" },
    { ...drop, value: volts },
    limit,
    options,
  );
  return ok({ ohms: (volts / current) as Ohm, watts: (volts * current) as Watt, share: volts / limit.high!, judged });
}

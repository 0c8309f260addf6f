/* eslint-disable @typescript-eslint/no-explicit-any -- the metadata generator knows ranges of any cell as any[][] only */
import { andThen, ok } from "../core/result";
import { conductorDrop, conductorOhms } from "../core/wiring/conductor-resistance";
import { joint as jointOf } from "../core/wiring/joint";
import type { FunctionTable } from "./function-table";
import { overCells } from "./over-cells";
import { ALLOWED, CURRENT, DROP, KIND, LENGTH, SIZE, TEMPERATURE } from "./wiring-arguments";

/**
 * Resistance of a copper conductor.
 * @customfunction WIREOHMS
 * @param size Size as printed on the cable: 14 AWG, 4/0 AWG, 2.5 mm²
 * @param length Length of the conductor, m; there and back where both ways count
 * @param [temp] Conductor temperature, °C (20)
 * @param [kind] solid, stranded, flexible, flexible tinned (IEC 60228 class 1, 2, 5), road vehicle (ISO 6722) or by area; AWG is solid and mm² flexible where blank
 * @returns Resistance, Ω: the highest that the standard allows
 * @example =CHG.WIREOHMS("2.5 mm²", 10) gives 0.0798
 */
export function wireOhms(size: any[][], length: any[][], temp?: any[][], kind?: any[][]): any[][] {
  return overCells([SIZE, LENGTH, TEMPERATURE, KIND], conductorOhms, [size, length, temp, kind]);
}

/**
 * Voltage drop of a copper conductor that carries a current.
 * @customfunction DROP
 * @param size Size as printed on the cable: 14 AWG, 4/0 AWG, 2.5 mm²
 * @param length Length of the conductor, m; there and back where both ways count
 * @param amps Current, A
 * @param [temp] Conductor temperature, °C (20)
 * @param [kind] As for WIREOHMS
 * @returns Voltage drop, V
 * @example =CHG.DROP("10 AWG", 3, 20) gives 0.197
 */
export function drop(size: any[][], length: any[][], amps: any[][], temp?: any[][], kind?: any[][]): any[][] {
  return overCells([SIZE, LENGTH, CURRENT, TEMPERATURE, KIND], conductorDrop, [size, length, amps, temp, kind]);
}

/**
 * Resistance, heat and judgement of a connection or run from its voltage drop under current.
 * @customfunction JOINT
 * @param dropVolts Voltage drop across it, V (one column)
 * @param amps Current through it, A
 * @param [allowed] Allowed drop, V, or what it is: connection, B+ run, ground run, phase connector, starter cable (connection)
 * @returns Resistance (Ω), heat (W), share of the allowed drop, state and reason, side by side
 * @example =CHG.JOINT(0.35, 14) gives 0.025, 4.9, 3.5, fail and the reason
 */
export function joint(dropVolts: any[][], amps: any[][], allowed?: any[][]): any[][] {
  return overCells(
    [DROP, CURRENT, ALLOWED],
    (volts, current, limitAt) =>
      andThen(jointOf(volts, current, limitAt(current)), ({ ohms, watts, share, judged }) =>
        ok([ohms, watts, share, judged.state, judged.reason]),
      ),
    [dropVolts, amps, allowed],
    ["", "", "", "not read", ""],
  );
}

export const wiringFunctions = { WIREOHMS: wireOhms, DROP: drop, JOINT: joint } satisfies FunctionTable;

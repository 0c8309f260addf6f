import type { Cell } from "../core/cell";
import type { Result } from "../core/result";
import { faultCell } from "./over-cells";

/** Uses what the whole-range arguments of a function were read into; their fault is the one answer. */
export function overContext<T>(context: Result<T>, use: (value: T) => Cell[][]): Cell[][] {
  return context.ok ? use(context.value) : [[faultCell(context.fault)]];
}

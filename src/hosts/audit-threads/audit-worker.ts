import type { Block } from "../../core/cell";
import { fleetFunctions } from "../../functions/fleet";
import type { FunctionTable } from "../../functions/function-table";
import type { RestOfCall } from "./audit-in-parts";
import type { Audited } from "./audit-thread";

const { AUDIT }: FunctionTable = fleetFunctions;
let rest: RestOfCall | undefined;

/** A thread that audits the rows it is handed: first comes what is the same for all of them. */
addEventListener("message", ({ data }: MessageEvent<RestOfCall | Block>) => {
  if (rest) postMessage(audited(data as Block, rest));
  else rest = data as RestOfCall;
});

function audited(rows: Block, others: RestOfCall): Audited {
  try {
    return AUDIT!(rows, ...others);
  } catch {
    return undefined;
  }
}

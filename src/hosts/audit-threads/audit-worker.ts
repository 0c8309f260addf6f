import type { Block } from "../../core/cell";
import { fleetFunctions } from "../../functions/fleet";
import type { FunctionTable } from "../../functions/function-table";
import type { RestOfCall } from "./audit-in-parts";
import type { Asked, Audited } from "./audit-thread";

const { AUDIT }: FunctionTable = fleetFunctions;
let rest: RestOfCall = [];

/** A thread that audits the rows it is handed, table after table. */
addEventListener("message", ({ data }: MessageEvent<Asked>) => {
  if ("rest" in data) rest = data.rest;
  else postMessage(audited(data.rows, rest));
});

function audited(rows: Block, others: RestOfCall): Audited {
  try {
    return AUDIT!(rows, ...others);
  } catch {
    return undefined;
  }
}

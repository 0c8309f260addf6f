import type { Block } from "../../core/cell";
import type { RestOfCall } from "./audit-in-parts";
import type { Audited } from "./audit-thread";
import { fetchOnCall } from "./function-parts";

/** The code is on its way before the first rows are. */
const functions = fetchOnCall();
let basis: RestOfCall | undefined;

/** A thread that audits the rows it is handed: first comes what is the same for all of them. */
addEventListener("message", ({ data }: MessageEvent<RestOfCall | Block>) => {
  if (!basis) {
    basis = data as RestOfCall;
    return;
  }
  const call = [data as Block, ...basis];
  void functions
    .then(({ AUDIT }) => postMessage(AUDIT!(...call) satisfies Audited))
    .catch(() => postMessage(undefined satisfies Audited));
});

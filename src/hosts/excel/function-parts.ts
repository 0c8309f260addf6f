import { batteryFunctions } from "../../functions/battery";
import { chargingFunctions } from "../../functions/charging";
import type { FunctionTable } from "../../functions/function-table";
import { judgementFunctions } from "../../functions/judgement";
import { rectifierFunctions } from "../../functions/rectifier";
import { statorFunctions } from "../../functions/stator";
import { wiringFunctions } from "../../functions/wiring";

/** Functions on single readings and parts, whose code those on whole jobs share. */
export const ON_READINGS: FunctionTable = {
  ...batteryFunctions,
  ...chargingFunctions,
  ...judgementFunctions,
  ...statorFunctions,
  ...rectifierFunctions,
  ...wiringFunctions,
};

/** Functions on whole jobs and fleets: the diagnosis behind them is a third of the code, so it is fetched at the first call. */
export const ON_CALL = ["VERDICT", "CAUSES", "NEXTCHECK", "WHY", "CARD", "AUDIT", "TREND"] as const;

export async function fetchOnCall(): Promise<FunctionTable> {
  const [{ verdictFunctions }, { fleetFunctions }] = await Promise.all([
    import(/* webpackChunkName: "whole-job" */ "../../functions/verdict"),
    import(/* webpackChunkName: "whole-job" */ "../../functions/fleet"),
  ]);
  return { ...verdictFunctions, ...fleetFunctions };
}

/** What a fleet's table shows as a history is asked by this one alone, and fetched for it. */
export const ON_NOTICE = ["NOTICES"] as const;

export async function fetchOnNotice(): Promise<FunctionTable> {
  return (await import(/* webpackChunkName: "notices" */ "../../functions/notices")).noticesFunctions;
}

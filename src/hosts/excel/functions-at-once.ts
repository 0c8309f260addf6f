import type { FunctionTable } from "../../functions/function-table";
import { quoteFunctions } from "../../functions/quote";
import { ON_READINGS } from "./function-parts";

/** What the page holds from the start; a thread that audits quotes nothing. */
export const AT_ONCE: FunctionTable = { ...ON_READINGS, ...quoteFunctions };

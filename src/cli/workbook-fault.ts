import { WorkbookFault } from "../workbook/port";
import { InputFault } from "./command";

/** What a command rejects with where a workbook cannot be used; any other error stays as it is. */
export function asInputFault(error: unknown): unknown {
  return error instanceof WorkbookFault ? new InputFault(error.message) : error;
}

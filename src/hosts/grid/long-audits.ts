import type { FunctionTable } from "../../functions/function-table";
import { auditInParts, planAudit, type AuditThread, type RestOfCall } from "../audit-threads/audit-in-parts";
import type { PutOff } from "../engine/put-off";

/**
 * The worksheet functions with the audit of a long table in threads of the page: the calculation that asks for it is put
 * off until they are done, and made anew then finds the audit remembered.
 *
 * @param start - Starts a thread; where it throws, the calculation made anew does the work by itself
 * @param processors - How many can work at once
 * @param worth - Rows that a thread is started for, where not the usual number
 */
export function withLongAudits(
  functions: FunctionTable,
  putOff: PutOff,
  start: (rest: RestOfCall) => AuditThread,
  processors: number,
  worth?: number,
): FunctionTable {
  return {
    ...functions,
    AUDIT: (...given) => {
      const plan = planAudit(given, processors, worth);
      return plan && putOff.until(() => auditInParts(plan, start)) ? NOT_LOOKED_AT : functions.AUDIT!(...given);
    },
  };
}

const NOT_LOOKED_AT = [[""]];

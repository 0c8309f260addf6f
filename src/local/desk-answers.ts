import { WorkbookFault, type Workbook } from "../workbook/port";
import { isSharedCall, unpacked, type Answered, type AnswerMessage, type CallMessage } from "./share-protocol";

/** Carries out what a phone asks of the workbook; a refusal goes back in the workbook's own words. */
export async function answerCall(workbook: Workbook, text: string): Promise<AnswerMessage> {
  const { id, method, args } = unpacked(text) as CallMessage;
  return { id, ...(await carriedOut(workbook, method, args)) };
}

async function carriedOut(workbook: Workbook, method: unknown, args: readonly unknown[]): Promise<Answered> {
  try {
    if (!isSharedCall(method)) throw new WorkbookFault("This cannot be asked from a phone.", "unsupported");
    const value = await (workbook[method] as (...given: readonly unknown[]) => Promise<unknown>)(...args);
    return { value: value ?? null };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { fault: { message, reason: error instanceof WorkbookFault ? error.reason : "host" } };
  }
}

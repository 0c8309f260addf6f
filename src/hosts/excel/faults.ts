import { WorkbookFault } from "../../workbook/port";

/** Why Excel refused, in words for the user; a fault of our own passes through as it is. */
export function workbookFault(error: unknown, doing: string): WorkbookFault {
  if (error instanceof WorkbookFault) return error;
  const { code = "", message = "" } = (typeof error === "object" && error !== null ? error : {}) as {
    code?: string;
    message?: string;
  };
  switch (code) {
    case "ItemNotFound":
    case "InvalidReference":
      return new WorkbookFault(
        `${doing}: the sheet or range is not there; it may have been renamed or deleted.`,
        "missing",
      );
    case "InvalidOperationInCellEditMode":
      return new WorkbookFault(
        `${doing}: a cell is being edited. Press Enter or Esc in the sheet and try again.`,
        "host",
      );
    case "AccessDenied":
      return new WorkbookFault(
        `${doing}: the sheet or the workbook is protected. Take off the protection (Review tab) and try again.`,
        "protected",
      );
    case "ApiNotAvailable":
    case "ApiNotFound":
    case "UnsupportedOperation":
    case "NotImplemented":
      return new WorkbookFault(
        `${doing}: this version of Excel cannot do it. Excel for Microsoft 365, 2021 or later can.`,
        "unsupported",
      );
    case "RequestPayloadSizeLimitExceeded":
    case "ResponsePayloadSizeLimitExceeded":
    case "RangeExceedsLimit":
      return new WorkbookFault(`${doing}: the range is larger than Excel moves at once. Choose fewer rows.`, "host");
    default:
      return new WorkbookFault(`${doing}: Excel refused${message ? ` (${message.replace(/\.$/u, "")})` : ""}.`, "host");
  }
}

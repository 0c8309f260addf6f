import { FileWorkbook } from "../../../src/hosts/file/file-workbook";
import { workbookContract } from "../contract";

jest.setTimeout(60_000);

describe("a new workbook file", () => {
  workbookContract(
    async () => {
      const workbook = new FileWorkbook();
      await workbook.apply([{ do: "add sheet", sheet: "Sheet1" }]);
      return { workbook };
    },
    { calculates: true, typedInto: false, undoes: false },
  );
});

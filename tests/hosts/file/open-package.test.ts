import { strToU8, zipSync, type Zippable } from "fflate";
import { recalculate } from "../../../src/hosts/file/recalc";
import { WorkbookFault } from "../../../src/workbook/port";
import { storedBook } from "./stored-book";

const book = storedBook({ sheets: [{ name: "S", rows: `<row r="1"><c r="A1"><v>1</v></c></row>` }] });
const zip = (files: Record<string, string>) =>
  zipSync(Object.fromEntries(Object.entries(files).map(([name, text]) => [name, strToU8(text)])) as Zippable);
const ole = (text: string) => {
  const bytes = new Uint8Array(2048);
  bytes.set([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
  bytes.set(
    [...text].flatMap((c) => [c.charCodeAt(0), 0]),
    1024,
  );
  return bytes;
};
const TYPES = { "[Content_Types].xml": "<Types/>", "_rels/.rels": "<Relationships/>" };

it.each<[string, Uint8Array, RegExp]>([
  ["nothing", new Uint8Array(0), /is empty; give a workbook saved as \.xlsx\.$/u],
  ["text", strToU8("Machine;Rested voltage\n"), /is not a workbook/u],
  ["a file cut short", book.subarray(0, book.length - 40), /is damaged or cut short/u],
  ["a file cut in the middle", book.subarray(0, 300), /is damaged or cut short/u],
  ["a renamed zip archive", zip({ "photo.jpg": "x" }), /is a zip archive, not a workbook/u],
  ["a workbook of the old format", ole("Workbook"), /old format \(\.xls\); save it as \.xlsx/u],
  ["a workbook with a password", ole("EncryptedPackage"), /protected by a password to open; remove the password/u],
  ["a binary workbook", zip({ ...TYPES, "xl/workbook.bin": "x" }), /binary workbook \(\.xlsb\)/u],
  [
    "an OpenDocument sheet",
    zip({ mimetype: "application/vnd.oasis.opendocument.spreadsheet", "content.xml": "<x/>" }),
    /OpenDocument/u,
  ],
  ["a text document", zip({ ...TYPES, "word/document.xml": "<x/>" }), /document of another program/u],
  ["a package without a workbook", zip(TYPES), /lacks its part xl\/workbook\.xml/u],
  ["a workbook part that is none", zip({ ...TYPES, "xl/workbook.xml": "<html/>" }), /is not a workbook/u],
])("refuses %s, and says what to do", async (_, bytes, message) => {
  const fault = await recalculate(bytes, "shop.xlsx").then(
    () => undefined,
    (error: unknown) => error,
  );
  expect(fault).toBeInstanceOf(WorkbookFault);
  expect(fault).toMatchObject({ reason: "file", message: expect.stringMatching(/^shop\.xlsx .*; .*\.$/u) });
  expect((fault as WorkbookFault).message).toMatch(message);
});

it("refuses what unpacks to more than a gigabyte before unpacking it", async () => {
  // The size that the archive's own directory tells.
  const bytes = book.slice();
  const directory = bytes.length - 22;
  const start = new DataView(bytes.buffer).getUint32(directory + 16, true);
  new DataView(bytes.buffer).setUint32(start + 24, 0x7fffffff, true);
  await expect(recalculate(bytes, "shop.xlsx")).rejects.toThrow(/more than 1 GB/u);
});

it("takes the good file", async () => {
  expect((await recalculate(book, "shop.xlsx")).bytes).toBe(book);
});

it("refuses a damaged byte inside without an error of its own", async () => {
  // Every byte of the archive in turn: it is read, or refused with words; nothing else happens.
  for (let at = 0; at < book.length; at += 7) {
    const bytes = book.slice();
    bytes[at] = bytes[at]! ^ 0xff;
    await recalculate(bytes, "shop.xlsx").catch((error: unknown) => expect(error).toBeInstanceOf(WorkbookFault));
  }
});

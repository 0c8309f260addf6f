import { unzipSync, zipSync, type Zippable } from "fflate";
import { WorkbookFault } from "../../workbook/port";

/** The parts of a workbook file by their path, in the order of the file. */
export type Parts = ReadonlyMap<string, Uint8Array>;

/** A workbook of the size that a spreadsheet opens; more is a mistake or an attack. */
const LARGEST_CONTENT = 1 << 30;

const OLE_START = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
const ZIP_START = [0x50, 0x4b];

/**
 * Unpacks a workbook file.
 *
 * @param bytes - The file
 * @param name - What to call it in messages
 * @param wanted - Which parts to unpack; all where not given
 * @throws WorkbookFault of reason `file`, which says what the file is instead and what to do
 */
export function openPackage(bytes: Uint8Array, name: string, wanted = (_part: string) => true): Parts {
  if (bytes.length === 0) throw fault(name, "is empty", "give a workbook saved as .xlsx");
  if (startsWith(bytes, OLE_START)) throw oleFault(bytes, name);
  if (!startsWith(bytes, ZIP_START)) throw fault(name, "is not a workbook", "give a file saved as .xlsx");
  const parts = unpack(bytes, name, wanted);
  if (parts.has("xl/workbook.bin")) throw fault(name, "is a binary workbook (.xlsb)", "save it as .xlsx and try again");
  if (parts.has("mimetype") || parts.has("content.xml"))
    throw fault(name, "is an OpenDocument file", "save it as .xlsx and try again");
  if (!parts.has("[Content_Types].xml") || !parts.has("_rels/.rels")) {
    throw fault(name, "is a zip archive, not a workbook", "give a file saved as .xlsx");
  }
  if (parts.has("word/document.xml") || parts.has("ppt/presentation.xml")) {
    throw fault(name, "is a document of another program of the office suite", "give a workbook saved as .xlsx");
  }
  return parts;
}

function unpack(bytes: Uint8Array, name: string, wanted: (part: string) => boolean): Map<string, Uint8Array> {
  let size = 0;
  try {
    const unpacked = unzipSync(bytes, {
      filter: (file) => {
        if (file.name.endsWith("/") || !wanted(file.name)) return false;
        size += file.originalSize;
        if (size > LARGEST_CONTENT) throw fault(name, "unpacks to more than 1 GB", "give a smaller workbook");
        return true;
      },
    });
    return new Map(Object.entries(unpacked));
  } catch (error) {
    if (error instanceof WorkbookFault) throw error;
    throw damaged(name);
  }
}

/** The fault of an archive that ends before its parts do. */
export function damaged(name: string): WorkbookFault {
  return fault(
    name,
    "is damaged or cut short: its archive cannot be read to the end",
    "take a fresh copy, or open it in the spreadsheet and save it again",
  );
}

/** Packs parts again, in the same order; the same parts give the same bytes. */
export function closePackage(parts: Parts): Uint8Array {
  const content: Zippable = {};
  for (const [path, data] of parts) content[path] = [data, { mtime: new Date(1980, 0, 1), level: 6 }];
  return zipSync(content);
}

export function partText(parts: Parts, path: string, name: string): string {
  const data = parts.get(path);
  if (!data) throw fault(name, `lacks its part ${path}`, "open it in the spreadsheet and save it again");
  if (data[0] === 0xff || data[0] === 0xfe)
    throw fault(
      name,
      `has its part ${path} in an encoding that is not read here`,
      "open it in the spreadsheet and save it again",
    );
  return new TextDecoder("utf-8", { ignoreBOM: true }).decode(data);
}

function oleFault(bytes: Uint8Array, name: string): WorkbookFault {
  // Stream names of the old container are UTF-16.
  const encrypted = contains(
    bytes,
    [..."EncryptedPackage"].flatMap((c) => [c.charCodeAt(0), 0]),
  );
  return encrypted
    ? fault(
        name,
        "is protected by a password to open",
        "remove the password in the spreadsheet, save it, and try again",
      )
    : fault(name, "is a workbook of the old format (.xls)", "save it as .xlsx and try again");
}

function fault(name: string, what: string, todo: string): WorkbookFault {
  return new WorkbookFault(`${name} ${what}; ${todo}.`, "file");
}

function startsWith(bytes: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, i) => bytes[i] === byte);
}

function contains(bytes: Uint8Array, wanted: readonly number[]): boolean {
  for (let at = bytes.indexOf(wanted[0]!); at >= 0; at = bytes.indexOf(wanted[0]!, at + 1)) {
    if (wanted.every((byte, i) => bytes[at + i] === byte)) return true;
  }
  return false;
}

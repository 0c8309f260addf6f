import project from "../../../package.json";
import { FUNCTIONS, NAMESPACE } from "../../functions/registry";
import { escapeXml } from "./xml";

/**
 * What ties a workbook file to the add-in, so that its formulas come alive where the add-in is
 * installed: a web extension part that says whose functions the file uses.
 *
 * @source MS-OWEXML 2.2 (elements), 5.1 and 5.2 (schemas); the two `uri` values are those seen in
 *   files that the spreadsheet itself saved
 */

/** Identity of the add-in; the manifest has the same. */
export const ADD_IN_ID = "60aaad2d-fd9f-4f5d-9298-581fd11daeba";

const DECLARATION = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n`;
const WE = "http://schemas.microsoft.com/office/webextensions/webextension/2010/11";
const WETP = "http://schemas.microsoft.com/office/webextensions/taskpanes/2010/11";
const R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const A = "http://schemas.openxmlformats.org/drawingml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships";

const TASK_PANES = "xl/webextensions/taskpanes.xml";
const EXTENSION = "xl/webextensions/webextension1.xml";

/** Adds the parts and what refers to them; the other parts keep their text. */
export function tieToAddIn(parts: ReadonlyMap<string, Uint8Array>): Map<string, Uint8Array> {
  const out = new Map(parts);
  const set = (path: string, text: string) => out.set(path, new TextEncoder().encode(text));
  const insert = (path: string, before: string, text: string) => {
    const xml = new TextDecoder().decode(out.get(path));
    set(path, xml.replace(before, `${text}${before}`));
  };
  set(TASK_PANES, taskPanes());
  set(
    "xl/webextensions/_rels/taskpanes.xml.rels",
    relation("rId1", "http://schemas.microsoft.com/office/2011/relationships/webextension", "webextension1.xml"),
  );
  set(EXTENSION, extension());
  insert(
    "_rels/.rels",
    "</Relationships>",
    `<Relationship Id="rIdTaskPanes" Type="http://schemas.microsoft.com/office/2011/relationships/webextensiontaskpanes" Target="${TASK_PANES}"/>`,
  );
  insert(
    "[Content_Types].xml",
    "</Types>",
    `<Override PartName="/${TASK_PANES}" ContentType="application/vnd.ms-office.webextensiontaskpanes+xml"/>` +
      `<Override PartName="/${EXTENSION}" ContentType="application/vnd.ms-office.webextension+xml"/>`,
  );
  return out;
}

function taskPanes(): string {
  return (
    `${DECLARATION}<wetp:taskpanes xmlns:wetp="${WETP}"><wetp:taskpane dockstate="right" visibility="0" width="350" row="1">` +
    `<wetp:webextensionref xmlns:r="${R}" r:id="rId1"/></wetp:taskpane></wetp:taskpanes>`
  );
}

/** Where an add-in was installed from is known only there: the first reference that fits is taken. */
function extension(): string {
  const reference = (store: string, storeType: string) =>
    `<we:reference id="${ADD_IN_ID}" version="1.${project.version}" store="${store}" storeType="${storeType}"/>`;
  const ids = Object.keys(FUNCTIONS).map(
    (name) => `<we:customFunctionIds>_xldudf_${NAMESPACE}_${escapeXml(name)}</we:customFunctionIds>`,
  );
  return (
    `${DECLARATION}<we:webextension xmlns:we="${WE}" id="{${ADD_IN_ID.toUpperCase()}}">${reference("developer", "Registry")}` +
    `<we:alternateReferences>${reference("", "FileSystem")}${reference("", "ExCatalog")}</we:alternateReferences>` +
    `<we:properties/><we:bindings/><we:snapshot xmlns:r="${R}"/><we:extLst>` +
    `<a:ext xmlns:a="${A}" uri="{D87F86FE-615C-45B5-9D79-34F1136793EB}"><we:containsCustomFunctions val="1"/></a:ext>` +
    `<a:ext xmlns:a="${A}" uri="{7C84B067-C214-45C3-A712-C9D94CD141B2}"><we:customFunctionIdList>${ids.join("")}</we:customFunctionIdList></a:ext>` +
    `</we:extLst></we:webextension>`
  );
}

function relation(id: string, type: string, target: string): string {
  return `${DECLARATION}<Relationships xmlns="${RELATIONS}"><Relationship Id="${id}" Type="${type}" Target="${target}"/></Relationships>`;
}

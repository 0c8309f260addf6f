import { WorkbookFault } from "../../workbook/port";
import { partText, type Parts } from "./open-package";
import { readSharedStrings, type SharedStrings } from "./sheet-cells";
import { attribute, elements, firstElement } from "./xml";

/** What a workbook holds besides the cells of its sheets. */
export interface WorkbookOutline {
  /** Text of the workbook's own part. */
  readonly workbook: string;
  /** In the workbook's order; one that has no cells has no part. */
  readonly sheets: readonly { readonly name: string; readonly part?: string; readonly hidden: boolean }[];
  readonly strings: SharedStrings;
  /** Which numbers in a cell's `cm` mean a dynamic array. */
  readonly dynamic: (mark: number) => boolean;
}

/** Reads it; the parts of the worksheets need not be there. */
export function outlineOf(parts: Parts, name: string): WorkbookOutline {
  const workbookPart =
    relations(parts, "").find(({ type }) => type.endsWith("/officeDocument"))?.target ?? "xl/workbook.xml";
  const workbook = partText(parts, workbookPart, name);
  if (!firstElement(workbook, "sheets"))
    throw new WorkbookFault(`${name} is not a workbook; give a file saved as .xlsx.`, "file");
  const related = relations(parts, workbookPart);
  const byType = (type: string) => related.find((relation) => relation.type.endsWith(type))?.target;

  const stringsPart = byType("/sharedStrings");
  const metadataPart = byType("/sheetMetadata");
  const sheets = [...elements(workbook, "sheet")].map(({ tag }) => {
    const id = /\s(?:[\w.-]+:)id\s*=\s*["']([^"']*)["']/u.exec(tag)?.[1] ?? "";
    const relation = related.find((one) => one.id === id);
    const part = relation?.type.endsWith("/worksheet") ? relation.target : undefined;
    const hidden = (attribute(tag, "state") ?? "visible") !== "visible";
    return { name: attribute(tag, "name") ?? "", hidden, ...(part === undefined ? {} : { part }) };
  });
  return {
    workbook,
    sheets,
    strings: stringsPart && parts.has(stringsPart) ? readSharedStrings(partText(parts, stringsPart, name)) : [],
    dynamic: dynamicMarks(metadataPart && parts.has(metadataPart) ? partText(parts, metadataPart, name) : ""),
  };
}

interface Relation {
  readonly id: string;
  readonly type: string;
  readonly target: string;
}

/** What a part refers to, with paths resolved; `""` for the package itself. */
export function relations(parts: Parts, part: string): readonly Relation[] {
  const slash = part.lastIndexOf("/");
  const folder = part.slice(0, slash + 1);
  const path = `${folder}_rels/${part.slice(slash + 1)}.rels`;
  const data = parts.get(path);
  if (!data) return [];
  return [...elements(new TextDecoder().decode(data), "Relationship")].map(({ tag }) => {
    const target = attribute(tag, "Target") ?? "";
    return { id: attribute(tag, "Id") ?? "", type: attribute(tag, "Type") ?? "", target: resolvePath(folder, target) };
  });
}

function resolvePath(folder: string, target: string): string {
  const steps = (target.startsWith("/") ? target.slice(1) : folder + target).split("/");
  const path: string[] = [];
  for (const step of steps) {
    if (step === "..") path.pop();
    else if (step !== "" && step !== ".") path.push(step);
  }
  return path.join("/");
}

function dynamicMarks(metadata: string): (mark: number) => boolean {
  const types = [...elements(metadata, "metadataType")].map(({ tag }) => attribute(tag, "name"));
  const cells = firstElement(metadata, "cellMetadata")?.inner ?? "";
  const marks = [...elements(cells, "bk")].map(({ inner }) =>
    [...elements(inner, "rc")].some(({ tag }) => types[Number(attribute(tag, "t")) - 1] === "XLDAPR"),
  );
  return (mark) => marks[mark - 1] ?? false;
}

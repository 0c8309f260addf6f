import { strToU8, zipSync } from "fflate";

/** A workbook file written out by hand, so that a test says byte for byte what comes in. */
export interface StoredBook {
  /** Name and the XML of its rows. */
  readonly sheets: readonly {
    readonly name: string;
    readonly rows: string;
    readonly after?: string;
    readonly tables?: readonly string[];
  }[];
  readonly names?: string;
  readonly strings?: readonly string[];
  /** XML prefix of every element, as some programs write it. */
  readonly prefix?: string;
  readonly extra?: Readonly<Record<string, string | Uint8Array>>;
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const HEAD = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n`;

export function storedBook({ sheets, names = "", strings, prefix, extra = {} }: StoredBook): Uint8Array {
  const p = prefix === undefined ? "" : `${prefix}:`;
  const xmlns = prefix === undefined ? `xmlns="${MAIN}"` : `xmlns:${prefix}="${MAIN}"`;
  const files: Record<string, string | Uint8Array> = {
    "[Content_Types].xml": `${HEAD}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`,
    "_rels/.rels": `${HEAD}<Relationships xmlns="${RELATIONS}"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `${HEAD}<${p}workbook ${xmlns} xmlns:r="${OFFICE}"><${p}sheets>${sheets
      .map(({ name }, i) => `<${p}sheet name="${name}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`)
      .join(
        "",
      )}</${p}sheets>${names && `<${p}definedNames>${names}</${p}definedNames>`}<${p}calcPr calcId="191029"/></${p}workbook>`,
    "xl/_rels/workbook.xml.rels": `${HEAD}<Relationships xmlns="${RELATIONS}">${sheets
      .map(
        (_, i) => `<Relationship Id="rId${i + 1}" Type="${OFFICE}/worksheet" Target="worksheets/sheet${i + 1}.xml"/>`,
      )
      .join("")}<Relationship Id="rIdMeta" Type="${OFFICE}/sheetMetadata" Target="metadata.xml"/>${
      strings ? `<Relationship Id="rIdStrings" Type="${OFFICE}/sharedStrings" Target="/xl/sharedStrings.xml"/>` : ""
    }</Relationships>`,
    // As the spreadsheet writes it for dynamic arrays.
    "xl/metadata.xml": `${HEAD}<metadata xmlns="${MAIN}" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" cellMeta="1"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`,
    ...(strings
      ? {
          "xl/sharedStrings.xml": `${HEAD}<sst xmlns="${MAIN}">${strings.map((s) => `<si><t>${s}</t></si>`).join("")}</sst>`,
        }
      : {}),
    ...extra,
  };
  let table = 0;
  sheets.forEach(({ rows, after = "", tables = [] }, i) => {
    files[`xl/worksheets/sheet${i + 1}.xml`] =
      `${HEAD}<${p}worksheet ${xmlns} xmlns:r="${OFFICE}"><${p}sheetViews><${p}sheetView workbookViewId="0"/></${p}sheetViews><${p}sheetData>${rows}</${p}sheetData>${after}</${p}worksheet>`;
    if (tables.length === 0) return;
    files[`xl/worksheets/_rels/sheet${i + 1}.xml.rels`] = `${HEAD}<Relationships xmlns="${RELATIONS}">${tables
      .map(
        (_, t) =>
          `<Relationship Id="rId${t + 1}" Type="${OFFICE}/table" Target="../tables/table${table + t + 1}.xml"/>`,
      )
      .join("")}</Relationships>`;
    for (const xml of tables) files[`xl/tables/table${++table}.xml`] = HEAD + xml;
  });
  return zipSync(
    Object.fromEntries(
      Object.entries(files).map(([name, content]) => [name, typeof content === "string" ? strToU8(content) : content]),
    ),
  );
}

import { checkManifest, type BuiltFiles } from "../../src/tools/check-manifest";
import { iconPng } from "../../src/tools/icon";
import { baseAddress, manifestVersion, manifestXml } from "../../src/tools/manifest";

const BASE = "https://shop.example/chargewright/";
const GOOD = manifestXml(BASE, "0.1.0");

const metadata = (id = "SOC") =>
  JSON.stringify({ allowErrorForDataTypeAny: true, functions: [{ id, helpUrl: `${BASE}help/${id}.html` }] });

const ICONS = Object.fromEntries([16, 32, 64, 80].map((size) => [size, iconPng(size)]));

/** What a build would hold; `changes` replaces or (with `undefined`) takes away a file. */
function built(changes: Record<string, string | Buffer | undefined> = {}): BuiltFiles {
  const files: Record<string, string | Buffer | undefined> = {
    "addin.html": "<!doctype html>",
    "functions.js": 'const all={SOC:1};associate("SOC")',
    "functions.json": metadata(),
    "help/index.html": "<!doctype html>",
    "help/SOC.html": "<!doctype html>",
    ...Object.fromEntries(Object.entries(ICONS).map(([size, file]) => [`icon-${size}.png`, file])),
    ...changes,
  };
  return (path) => (files[path] === undefined ? undefined : Buffer.from(files[path]));
}

/** The good manifest with one text exchanged; fails when that text is not there. */
function broken(from: string | RegExp, to: string): string {
  const text = GOOD.replace(from, to);
  if (text === GOOD) throw new Error(`The manifest has no ${from}`);
  return text;
}

describe("manifest", () => {
  it("is written for an address and passes the check with the files it points to", () => {
    expect(checkManifest(GOOD, BASE, built())).toEqual([]);
    expect(GOOD).not.toMatch(/\{\{|localhost/u);
  });

  it("escapes the address and ends it with a slash", () => {
    expect(baseAddress("https://shop.example/a")).toBe("https://shop.example/a/");
    const odd = manifestXml("https://shop.example/a&b", "1.2.3");
    expect(odd).toContain("https://shop.example/a&amp;b/addin.html");
    expect(checkManifest(odd, "https://shop.example/a&b/", () => undefined).join("\n")).not.toMatch(
      /well-formed|outside/u,
    );
  });

  for (const bad of ["http://shop.example/", "shop.example", "https://shop.example/?a=1", "file:///tools/"]) {
    it(`refuses the address ${bad} with a word on what to give`, () => {
      expect(() => manifestXml(bad, "1.0.0")).toThrow(/https:\/\//u);
    });
  }

  it("numbers versions as Excel wants them: four numbers, never below 1.0", () => {
    expect(manifestVersion("0.1.0")).toBe("1.0.1.0");
    expect(manifestVersion("2.3.4-rc.1")).toBe("1.2.3.4");
    expect(() => manifestVersion("one")).toThrow(/major\.minor\.patch/u);
  });
});

describe("manifest check refuses", () => {
  const cases: [string, string, BuiltFiles, RegExp][] = [
    ["XML that does not close", broken("</OfficeApp>", ""), built(), /^Not well-formed XML/u],
    ["a document type", broken("<OfficeApp", "<!DOCTYPE OfficeApp><OfficeApp"), built(), /document type/u],
    [
      "an id that is no GUID",
      broken(/<Id>.*<\/Id>/u, "<Id>chargewright</Id>"),
      built(),
      /Id: "chargewright" is not a GUID/u,
    ],
    [
      "elements out of order",
      broken(/( *<Version>.*\n)( *<ProviderName>.*\n)/u, "$2$1"),
      built(),
      /Version is expected before ProviderName/u,
    ],
    [
      "a missing element",
      broken(/ *<Permissions>.*\n/u, ""),
      built(),
      /Permissions is expected before ov:VersionOverrides/u,
    ],
    [
      "an element in the wrong namespace",
      broken(
        '<VersionOverrides xmlns="http://schemas.microsoft.com/office/taskpaneappversionoverrides"',
        "<VersionOverrides",
      ),
      built(),
      /ov:VersionOverrides is expected/u,
    ],
    [
      "runtimes that do not stand first",
      broken(/( *<Runtimes>[\s\S]*?<\/Runtimes>\n)([\s\S]*?<\/AllFormFactors>\n)/u, "$2$1"),
      built(),
      /ov:Runtimes is expected before ov:AllFormFactors/u,
    ],
    ["a version of three numbers", broken(/<Version>.*</u, "<Version>1.0.0<"), built(), /four numbers/u],
    ["a version below 1.0", broken(/<Version>.*</u, "<Version>0.9.0.0<"), built(), /first at least 1/u],
    [
      "a resid that leads nowhere",
      broken('<Label resid="Group.Label"/>', '<Label resid="Group.Labels"/>'),
      built(),
      /there is no resource "Group\.Labels"/u,
    ],
    [
      "a resid of the wrong kind",
      broken('<Label resid="Group.Label"/>', '<Label resid="Open.Text"/>'),
      built(),
      /stands among LongStrings, not ShortStrings/u,
    ],
    [
      "a resource that nothing uses",
      broken("<bt:Urls>", `<bt:Urls><bt:Url id="Spare.Url" DefaultValue="${BASE}addin.html"/>`),
      built(),
      /"Spare\.Url" is used nowhere/u,
    ],
    [
      "the same resource id twice",
      broken('String id="Open.Text"', 'String id="Open.Label"'),
      built(),
      /"Open\.Label" is used twice/u,
    ],
    [
      "a resid of more than 32 characters",
      GOOD.replaceAll("Open.Text", "Open.Text.That.Is.Far.Too.Long.For.It"),
      built(),
      /1 to 32 characters/u,
    ],
    [
      "a short string that is long",
      broken("Charging check", "Charging check ".repeat(10)),
      built(),
      /150 characters; 1 to 125/u,
    ],
    [
      "an address without https",
      broken(`DefaultValue="${BASE}functions.js"`, 'DefaultValue="http://shop.example/chargewright/functions.js"'),
      built(),
      /must begin with https/u,
    ],
    [
      "an address elsewhere",
      broken(`DefaultValue="${BASE}functions.js"`, 'DefaultValue="https://other.example/functions.js"'),
      built(),
      /lies outside/u,
    ],
    ["a file that the build does not hold", GOOD, built({ "functions.json": undefined }), /holds no functions\.json/u],
    ["an icon of another size", GOOD, built({ "icon-80.png": ICONS[64] }), /is 64 × 64, not 80 × 80/u],
    ["an icon that is no PNG", GOOD, built({ "icon-16.png": "GIF89a..................." }), /not a PNG/u],
    ["a missing icon size", broken(/ *<bt:Image size="80".*\n/u, ""), built(), /the size 80 is missing/u],
    [
      "a runtime that ends with the pane",
      broken('lifetime="long"', 'lifetime="short"'),
      built(),
      /lifetime must be "long"/u,
    ],
    [
      "a pane outside the shared runtime",
      broken(/(<TaskpaneId>[\s\S]*?resid=)"Page\.Url"/u, '$1"Help.Url"'),
      built(),
      /must name the runtime's own page "Page\.Url", not "Help\.Url"/u,
    ],
    [
      "a start page outside the shared runtime",
      broken(
        `<SourceLocation DefaultValue="${BASE}addin.html"/>`,
        `<SourceLocation DefaultValue="${BASE}help/index.html"/>`,
      ),
      built(),
      /must be the runtime's own page/u,
    ],
    [
      "a missing requirement set",
      broken(/ *<Set Name="SharedRuntime".*\n/u, ""),
      built(),
      /SharedRuntime 1\.1 is missing/u,
    ],
    [
      "a requirement set too low for error codes",
      broken('MinVersion="1.3"', 'MinVersion="1.1"'),
      built(),
      /CustomFunctionsRuntime 1\.1 is too low/u,
    ],
    [
      "a set that hides the add-in from older Excel",
      broken("</Sets>", '<Set Name="ExcelApi" MinVersion="1.20"/></Sets>'),
      built(),
      /ExcelApi would hide/u,
    ],
    [
      "a permission that cannot write",
      broken("ReadWriteDocument", "ReadDocument"),
      built(),
      /must be ReadWriteDocument/u,
    ],
    ["another host", broken('Name="Workbook"', 'Name="Document"'), built(), /Workbook and nothing else/u],
    [
      "another namespace",
      broken('DefaultValue="CHG"', 'DefaultValue="CHARGE"'),
      built(),
      /is "CHARGE"; the functions are called CHG/u,
    ],
    ["metadata that is no JSON", GOOD, built({ "functions.json": "{" }), /is not JSON/u],
    [
      "metadata that keeps error cells away",
      GOOD,
      built({ "functions.json": '{"functions":[]}' }),
      /keeps error cells/u,
    ],
    [
      "a described function without code",
      GOOD,
      built({ "functions.json": metadata("BALANCE"), "help/BALANCE.html": "x" }),
      /BALANCE is described but/u,
    ],
    ["a function without help page", GOOD, built({ "help/SOC.html": undefined }), /SOC has no help page/u],
  ];
  for (const [what, source, files, message] of cases) {
    it(what, () => expect(checkManifest(source, BASE, files).join("\n")).toMatch(message));
  }
});

import { addinFiles, checkAddinFiles } from "../../src/tools/addin-files";
import { FUNCTIONS } from "../../src/functions/registry";

const BASE = "https://shop.example/chargewright/";

describe("the files of the add-in", () => {
  const files = new Map<string, string | Uint8Array>([
    ...addinFiles(BASE, "0.1.0"),
    // What the bundler adds.
    ["addin.html", "<!doctype html>"],
    [
      "functions.js",
      `var all={${Object.keys(FUNCTIONS)
        .map((id) => `${id}:1`)
        .join()}};`,
    ],
  ]);

  it("pass the manifest check together", () => expect(checkAddinFiles(BASE, files)).toEqual([]));

  it("hold a help page for each function and metadata that points to it", () => {
    const metadata = JSON.parse(String(files.get("functions.json"))) as {
      functions: { id: string; helpUrl: string }[];
    };
    expect(metadata.functions.map(({ id }) => id).sort()).toEqual(Object.keys(FUNCTIONS).sort());
    for (const { id, helpUrl } of metadata.functions) expect(files.has(helpUrl.slice(BASE.length)) || id).toBe(true);
  });

  it("fail the check when a function is left out of the code", () => {
    const without = new Map(files).set("functions.js", "var all={};");
    expect(checkAddinFiles(BASE, without).join("\n")).toMatch(
      /SOC is described but the functions file does not hold it/u,
    );
  });

  it("name no address but the one given", () => {
    const elsewhere = [...files].flatMap(([name, content]) =>
      typeof content === "string" && /\.(?:json|xml|html|css)$/u.test(name)
        ? [...content.matchAll(/https?:\/\/[^"'\s<)]+/gu)].map(([url]) => `${name}: ${url}`)
        : [],
    );
    const foreign = elsewhere.filter(
      (one) => !one.includes(`: ${BASE}`) && !/: http:\/\/(?:schemas\.microsoft\.com|www\.w3\.org)\//u.test(one),
    );
    expect(foreign).toEqual([]);
  });
});

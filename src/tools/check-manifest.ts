import { NAMESPACE } from "../functions/registry";
import { pngSize } from "./icon";
import { CHILDREN, LONGEST, NAMESPACES, NEEDED_SETS, RESOURCE_OF } from "./manifest-shape";
import { everyElement, readXml, type XmlElement } from "./xml-tree";

/** The built files, by their path below the base address; `undefined` where there is none. */
export type BuiltFiles = (path: string) => Uint8Array | undefined;

/**
 * Checks an add-in manifest against the published schemas and against the files it points to; all
 * offline. The maker's own validator asks an online service, and its reader accepts nonsense.
 *
 * @param source - The manifest
 * @param base - Address the files are served from, ending with a slash
 * @param files - The built files
 * @returns What is wrong, one sentence each; nothing when the manifest is good
 */
export function checkManifest(source: string, base: string, files: BuiltFiles): string[] {
  let root: XmlElement;
  try {
    root = readXml(source);
  } catch (error) {
    return [(error as Error).message];
  }
  const wrong: string[] = [];
  const say: Say = (element, what) => wrong.push(`Line ${element.line}, ${element.name}: ${what}`);
  checkShape(root, say);
  if (wrong.length > 0) return wrong; // the rest relies on the shape
  checkHead(root, say);
  checkResources(root, say);
  checkSharedRuntime(root, say);
  checkAddresses(root, base, files, say);
  checkIcons(root, base, files, say);
  checkFunctions(root, base, files, say);
  return wrong;
}

type Say = (element: XmlElement, what: string) => void;

function qualified(element: XmlElement): string {
  const prefix = (NAMESPACES as Record<string, string>)[element.namespace];
  return prefix === undefined ? `{${element.namespace}}${element.name}` : prefix + element.name;
}

/** Right children in the right order, by the table of the schema. */
function checkShape(element: XmlElement, say: Say): void {
  const type = element.attributes["xsi:type"];
  const key = type === undefined ? qualified(element) : `${qualified(element)}(${type})`;
  const rule = CHILDREN[key];
  if (rule === undefined) {
    if (element.children.length > 0 || type !== undefined) say(element, `${key} is not known here.`);
    return;
  }
  let at = 0;
  for (const part of rule.split(" ")) {
    const name = part.replace(/[?+]$/u, "");
    let count = 0;
    while (
      at < element.children.length &&
      qualified(element.children[at]!) === name &&
      (count === 0 || part.endsWith("+"))
    ) {
      at++;
      count++;
    }
    if (count === 0 && !part.endsWith("?")) {
      const there = element.children[at];
      say(
        element,
        `${name} is expected${there ? ` before ${qualified(there)}` : " at the end"}; the order is ${rule}.`,
      );
      return;
    }
  }
  const extra = element.children[at];
  if (extra) say(extra, `does not belong here in ${element.name}; the order is ${rule}.`);
  else element.children.forEach((child) => checkShape(child, say));
}

function child(element: XmlElement, ...names: string[]): XmlElement {
  return names.reduce((parent, name) => parent.children.find((one) => one.name === name)!, element);
}

function checkHead(root: XmlElement, say: Say): void {
  const id = child(root, "Id");
  if (!/^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/iu.test(id.text)) say(id, `"${id.text}" is not a GUID.`);
  const version = child(root, "Version");
  if (!/^[1-9]\d{0,4}(?:\.\d{1,5}){3}$/u.test(version.text)) {
    say(version, `"${version.text}" must be four numbers, the first at least 1 (1.0.0.0).`);
  }
  for (const [name, longest] of [
    ["DisplayName", 125],
    ["Description", 250],
  ] as const) {
    const element = child(root, name);
    const length = (element.attributes.DefaultValue ?? "").length;
    if (length < 1 || length > longest) say(element, `has ${length} characters; 1 to ${longest} are allowed.`);
  }
  const hosts = child(root, "Hosts");
  if (hosts.children.length !== 1 || hosts.children[0]!.attributes.Name !== "Workbook")
    say(hosts, "must name Workbook and nothing else.");
  const permissions = child(root, "Permissions");
  if (permissions.text !== "ReadWriteDocument")
    say(permissions, `"${permissions.text}" must be ReadWriteDocument to write templates.`);
  const sets = child(root, "Requirements", "Sets");
  for (const [name, lowest] of Object.entries(NEEDED_SETS)) {
    const set = sets.children.find((one) => one.attributes.Name === name);
    const version = set?.attributes.MinVersion ?? sets.attributes.DefaultMinVersion ?? "1.1";
    if (!set) say(sets, `the requirement set ${name} ${lowest} is missing.`);
    else if (!(Number(version.split(".")[1]) >= Number(lowest.split(".")[1])))
      say(set, `${name} ${version} is too low; ${lowest} is needed.`);
  }
  for (const set of sets.children) {
    if (!(set.attributes.Name! in NEEDED_SETS))
      say(set, `${set.attributes.Name} would hide the add-in from Excel versions that run it; check it at run time.`);
  }
}

interface Resource {
  readonly list: keyof typeof LONGEST;
  readonly element: XmlElement;
  readonly value: string;
}

function resourcesOf(root: XmlElement): Map<string, Resource> {
  const resources = child(root, "VersionOverrides", "Resources");
  return new Map(
    resources.children.flatMap((list) =>
      list.children.map((element): [string, Resource] => [
        element.attributes.id ?? "",
        { list: list.name as Resource["list"], element, value: element.attributes.DefaultValue ?? "" },
      ]),
    ),
  );
}

/** Elements that point to a resource. */
function references(root: XmlElement): XmlElement[] {
  return everyElement(root).filter((element) => element.attributes.resid !== undefined);
}

function checkResources(root: XmlElement, say: Say): void {
  const seen = new Set<string>();
  for (const element of everyElement(child(root, "VersionOverrides", "Resources"))) {
    const { id } = element.attributes;
    if (id === undefined) continue;
    if (id.length < 1 || id.length > 32) say(element, `the id "${id}" must have 1 to 32 characters.`);
    if (seen.has(id)) say(element, `the id "${id}" is used twice.`);
    seen.add(id);
  }
  const resources = resourcesOf(root);
  for (const { list, element, value } of resources.values()) {
    if (value.length < 1 || value.length > LONGEST[list])
      say(element, `has ${value.length} characters; 1 to ${LONGEST[list]} are allowed.`);
  }
  const used = new Set<string>();
  for (const element of references(root)) {
    const { resid = "" } = element.attributes;
    used.add(resid);
    const resource = resources.get(resid);
    const list = RESOURCE_OF[element.name];
    if (!resource) say(element, `there is no resource "${resid}".`);
    else if (resource.list !== list) say(element, `"${resid}" stands among ${resource.list}, not ${list}.`);
  }
  for (const [id, { element }] of resources) if (!used.has(id)) say(element, `"${id}" is used nowhere.`);
  const controls = new Set<string>();
  for (const element of everyElement(root).filter((one) => one.name === "Group" || one.name === "Control")) {
    const { id = "" } = element.attributes;
    if (id === "" || controls.has(id)) say(element, `the id "${id}" must be there and be used once.`);
    controls.add(id);
  }
}

/** The shared runtime does not load unless all five places name one and the same resource. */
function checkSharedRuntime(root: XmlElement, say: Say): void {
  const host = child(root, "VersionOverrides", "Hosts", "Host");
  const runtime = child(host, "Runtimes", "Runtime");
  if (runtime.attributes.lifetime !== "long") say(runtime, `the lifetime must be "long".`);
  const page = runtime.attributes.resid;
  const same = [
    child(host, "AllFormFactors", "ExtensionPoint", "Page", "SourceLocation"),
    child(host, "DesktopFormFactor", "FunctionFile"),
    ...everyElement(host)
      .filter((element) => element.name === "Action")
      .map((action) => child(action, "SourceLocation")),
  ];
  for (const element of same) {
    if (element.attributes.resid !== page)
      say(element, `must name the runtime's own page "${page}", not "${element.attributes.resid}".`);
  }
  const start = child(root, "DefaultSettings", "SourceLocation");
  const address = resourcesOf(root).get(page ?? "")?.value;
  if (address !== undefined && start.attributes.DefaultValue !== address)
    say(start, `must be the runtime's own page ${address}.`);
}

/** Every address with the element it stands on. */
function addresses(root: XmlElement): [XmlElement, string][] {
  const head = ["IconUrl", "HighResolutionIconUrl", "SupportUrl"].map((name) => child(root, name));
  const all = [...head, child(root, "DefaultSettings", "SourceLocation")];
  for (const { list, element } of resourcesOf(root).values())
    if (list === "Images" || list === "Urls") all.push(element);
  return all.map((element) => [element, element.attributes.DefaultValue ?? ""]);
}

function checkAddresses(root: XmlElement, base: string, files: BuiltFiles, say: Say): void {
  for (const [element, address] of addresses(root)) {
    if (!address.startsWith("https://")) say(element, `"${address}" must begin with https://.`);
    else if (!address.startsWith(base)) say(element, `"${address}" lies outside ${base}.`);
    else if (!files(address.slice(base.length))) say(element, `the build holds no ${address.slice(base.length)}.`);
  }
}

function checkIcons(root: XmlElement, base: string, files: BuiltFiles, say: Say): void {
  const sized = (element: XmlElement, address: string, size: number) => {
    const file = address.startsWith(base) ? files(address.slice(base.length)) : undefined;
    if (!file) return;
    const real = pngSize(file);
    if (!real) say(element, `${address} is not a PNG file.`);
    else if (real.width !== size || real.height !== size)
      say(element, `${address} is ${real.width} × ${real.height}, not ${size} × ${size} pixels.`);
  };
  sized(child(root, "IconUrl"), child(root, "IconUrl").attributes.DefaultValue ?? "", 32);
  sized(child(root, "HighResolutionIconUrl"), child(root, "HighResolutionIconUrl").attributes.DefaultValue ?? "", 64);
  const resources = resourcesOf(root);
  for (const icon of everyElement(root).filter((element) => element.name === "Icon")) {
    const sizes = icon.children.map((image) => image.attributes.size);
    for (const size of ["16", "32", "80"]) if (!sizes.includes(size)) say(icon, `the size ${size} is missing.`);
    for (const image of icon.children)
      sized(image, resources.get(image.attributes.resid ?? "")?.value ?? "", Number(image.attributes.size));
  }
}

/** The namespace, and the metadata file that the manifest points to. */
function checkFunctions(root: XmlElement, base: string, files: BuiltFiles, say: Say): void {
  const point = child(root, "VersionOverrides", "Hosts", "Host", "AllFormFactors", "ExtensionPoint");
  const resources = resourcesOf(root);
  const namespace = child(point, "Namespace");
  const name = resources.get(namespace.attributes.resid ?? "")?.value;
  if (name !== NAMESPACE) say(namespace, `is "${name}"; the functions are called ${NAMESPACE}.`);
  const metadata = child(point, "Metadata", "SourceLocation");
  const address = resources.get(metadata.attributes.resid ?? "")?.value ?? "";
  const file = address.startsWith(base) ? files(address.slice(base.length)) : undefined;
  if (!file) return;
  let read: { functions?: { id?: string; helpUrl?: string }[]; allowErrorForDataTypeAny?: boolean };
  try {
    read = JSON.parse(Buffer.from(file).toString("utf8")) as typeof read;
  } catch {
    say(metadata, `${address} is not JSON.`);
    return;
  }
  if (!Array.isArray(read.functions)) say(metadata, `${address} lists no functions.`);
  if (read.allowErrorForDataTypeAny !== true) say(metadata, `${address} keeps error cells from the functions.`);
  const script = resources.get(child(point, "Script", "SourceLocation").attributes.resid ?? "")?.value ?? "";
  const code = Buffer.from(files(script.slice(base.length)) ?? []).toString("utf8");
  for (const { id = "", helpUrl = "" } of read.functions ?? []) {
    if (!new RegExp(`\\b${id}\\b`, "u").test(code))
      say(metadata, `${id} is described but the functions file does not hold it.`);
    if (!helpUrl.startsWith(base) || !files(helpUrl.slice(base.length)))
      say(metadata, `${id} has no help page at "${helpUrl}".`);
  }
}

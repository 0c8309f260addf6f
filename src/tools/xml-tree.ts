import { SaxesParser } from "saxes";

/** An XML element with its children in order; `name` carries the prefix that its namespace has here. */
export interface XmlElement {
  readonly name: string;
  readonly namespace: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  readonly text: string;
  readonly line: number;
}

/** Reads a well-formed XML document; throws with the line of the first slip. */
export function readXml(source: string): XmlElement {
  type Open = { -readonly [K in keyof XmlElement]: XmlElement[K] } & { children: XmlElement[] };
  const parser = new SaxesParser({ xmlns: true });
  const open: Open[] = [];
  let root: XmlElement | undefined;
  parser.on("error", (error) => {
    throw new Error(`Not well-formed XML: ${error.message}`);
  });
  parser.on("doctype", () => {
    throw new Error("Not well-formed XML: a document type is not allowed here.");
  });
  parser.on("opentag", (tag) => {
    const attributes: Record<string, string> = {};
    for (const [name, attribute] of Object.entries(tag.attributes)) attributes[name] = attribute.value;
    const element: Open = {
      name: tag.local,
      namespace: tag.uri,
      attributes,
      children: [],
      text: "",
      line: parser.line,
    };
    open.at(-1)?.children.push(element);
    open.push(element);
  });
  parser.on("text", (text) => {
    const element = open.at(-1);
    if (element) element.text += text;
  });
  parser.on("closetag", () => {
    root = open.pop();
  });
  parser.write(source).close();
  if (!root) throw new Error("Not well-formed XML: there is no element.");
  return root;
}

/** Every element below, in document order, the element itself first. */
export function everyElement(root: XmlElement): XmlElement[] {
  return [root, ...root.children.flatMap(everyElement)];
}

/**
 * Just enough XML to find and replace pieces of a part without touching the rest of its text. A
 * reader that builds a tree could not give the bytes around a change back as they were.
 */

const ENTITIES: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

export function unescapeXml(text: string): string {
  if (!text.includes("&")) return text;
  return text.replaceAll(/&(?:#x([\da-f]+)|#(\d+)|(\w+));/giu, (whole, hex: string, decimal: string, name: string) => {
    if (hex) return codePoint(Number.parseInt(hex, 16), whole);
    if (decimal) return codePoint(Number(decimal), whole);
    return ENTITIES[name] ?? whole;
  });
}

function codePoint(code: number, otherwise: string): string {
  return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : otherwise;
}

/** Control characters cannot stand in XML; workbooks write them as `_x0007_`. */
export function escapeXml(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll(CONTROL, (c) => `_x${c.charCodeAt(0).toString(16).padStart(4, "0").toUpperCase()}_`);
}

// eslint-disable-next-line no-control-regex -- these are the very characters that must not get out
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f]/gu;

/** Text of a workbook's cell: entities and `_x000D_` escapes resolved. */
export function cellText(xml: string): string {
  return unescapeXml(xml).replaceAll(/_x([\da-f]{4})_/giu, (_, hex: string) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  );
}

/** An attribute's value, unescaped; the name may carry a prefix in the file. */
export function attribute(tag: string, name: string): string | undefined {
  let pattern = ATTRIBUTES.get(name);
  if (!pattern) {
    pattern = new RegExp(`\\s(?:[\\w.-]+:)?${name}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`, "u");
    ATTRIBUTES.set(name, pattern);
  }
  const match = pattern.exec(tag);
  return match ? unescapeXml(match[1] ?? match[2] ?? "") : undefined;
}

const ATTRIBUTES = new Map<string, RegExp>();

/** An element of one local name: its opening tag, what stands inside, and where it lies in the text. */
export interface Element {
  readonly tag: string;
  readonly inner: string;
  readonly start: number;
  readonly end: number;
  /** Where `inner` starts; `start` plus the length of the tag. */
  readonly innerStart: number;
}

/** Every element of this local name that does not lie in another of the same name, in order. */
export function* elements(xml: string, name: string): Generator<Element> {
  const opening = new RegExp(`<((?:[\\w.-]+:)?${name})(?=[\\s/>])(?:[^>"']|"[^"]*"|'[^']*')*>`, "gu");
  for (let match = opening.exec(xml); match; match = opening.exec(xml)) {
    const [tag, qualified] = [match[0], match[1]!];
    const start = match.index;
    const innerStart = start + tag.length;
    if (tag.endsWith("/>")) {
      yield { tag, inner: "", start, end: innerStart, innerStart };
      continue;
    }
    const closing = closingTag(xml, qualified, innerStart);
    const innerEnd = closing < 0 ? xml.length : closing;
    const end = closing < 0 ? xml.length : xml.indexOf(">", closing) + 1;
    yield { tag, inner: xml.slice(innerStart, innerEnd), start, end, innerStart };
    opening.lastIndex = end;
  }
}

/** `</c` must not stop at `</cols>`. */
function closingTag(xml: string, qualified: string, from: number): number {
  const text = `</${qualified}`;
  for (let at = xml.indexOf(text, from); at >= 0; at = xml.indexOf(text, at + 1)) {
    if (/[\s>]/u.test(xml[at + text.length] ?? ">")) return at;
  }
  return -1;
}

export function firstElement(xml: string, name: string): Element | undefined {
  return elements(xml, name).next().value ?? undefined;
}

/** A replacement of one stretch of text. */
export interface Splice {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Applies replacements that do not overlap; everything between them stays as it is. */
export function splice(text: string, changes: readonly Splice[]): string {
  let out = "";
  let at = 0;
  for (const change of [...changes].sort((a, b) => a.start - b.start || a.end - b.end)) {
    if (change.start < at) throw new Error("Replacements overlap.");
    out += text.slice(at, change.start) + change.text;
    at = change.end;
  }
  return out + text.slice(at);
}

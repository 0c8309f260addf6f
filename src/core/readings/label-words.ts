import { sayingSpeeds, stateAt } from "./label-speed";

/** Words without case, accents and marks; the pair A–B reads as `ab` however it is written. */
export function wordsOf(text: string): string[] {
  return text
    .normalize("NFKD")
    .replaceAll(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll(/\b([abc])\s*(?:[-–—/]|to)\s*([abc])\b/gu, "$1$2")
    .split(/[^\p{L}\p{N}+]+/u)
    .filter(Boolean);
}

/** Letters of phases and pairs and numbers of cells tell entries apart: they are never guessed. */
const TELLTALE = /^(?:[a-z]|ab|bc|ca|\d+)$/u;

export function telltalesOf(words: readonly string[]): string {
  return words.filter((word) => TELLTALE.test(word)).join(" ");
}

/** What a workshop writes for a word of the catalogue, by the word. */
const SHORT_FORMS = {
  battery: "batt bat bateria batterie",
  voltage: "v vdc volt volts voltaje tension spannung",
  current: "amp amps",
  resistance: "ohm ohms",
  temperature: "temp",
  speed: "rpm revs",
  rested: "rest resting",
  running: "run",
  charging: "charge",
  cranking: "crank",
  ground: "gnd earth",
  draw: "drain",
  number: "no nr num numero id tag",
} as const;
const WRITTEN_OUT = new Map(
  Object.entries(SHORT_FORMS).flatMap(([word, forms]) => forms.split(" ").map((form) => [form, word])),
);
/** Words that say nothing of what was read. */
const FILLERS: ReadonlySet<string> = new Set(
  "the of at on in with during reading measured dc de del en la el al au du le".split(" "),
);
/** The three leads of a stator are as often numbered as lettered. */
const PAIRS = { "12": "ab", "21": "ab", "23": "bc", "32": "bc", "31": "ca", "13": "ca" } as const;

const LEADS = /(^|[^\w-])([123])\s*[-–—/]\s*([123])(?![\w-])/gu;

/**
 * A label's words as a set, each written out, whatever their order: `Batt. volts (rested)` and
 * `Rested battery voltage` have the same. Words that another one says already are left out.
 */
export function wordSet(text: string): string {
  const spoken = text.replaceAll(LEADS, (leads, before, from, to) => {
    const pair = PAIRS[`${from}${to}` as keyof typeof PAIRS];
    return pair ? `${before} ${pair}` : leads;
  });
  const words = new Set(
    wordsOf(sayingSpeeds(spoken, stateAt))
      .map((word) => WRITTEN_OUT.get(word) ?? word)
      .filter((word) => !FILLERS.has(word)),
  );
  if (words.has("ac")) words.delete("voltage");
  // Everything is read at the battery unless it says otherwise.
  if (words.size > 2) words.delete("battery");
  return [...words].sort().join(" ");
}

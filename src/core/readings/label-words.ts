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
  voltage: "v vdc volt volts voltaje tension",
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

/** From this speed on a header speaks of the test speed, and up to that one of idle [rpm]. */
const TEST_FROM = 3000;
const IDLE_TO = 1800;

/** A number with what makes it a speed, before it or behind it. */
const SPEED = /(^|@\s*|[^\d.,])(\d{1,2}[ ,.'’]?\d{3}|\d{3})(?![\d.,]\d)(\s*(?:rpm|r\/min|tr\/min|u\/min))?/giu;
const LEADS = /(^|[^\w-])([123])\s*[-–—/]\s*([123])(?![\w-])/gu;

/**
 * A label's words as a set, each written out, whatever their order: `Batt. volts (rested)` and
 * `Rested battery voltage` have the same. Words that another one says already are left out.
 */
export function wordSet(text: string): string {
  const spoken = text
    .replaceAll(LEADS, (pair, before, from, to) => put(before, pairOf(`${from}${to}`)) ?? pair)
    .replaceAll(SPEED, (speed, before, digits, unit) => {
      const told = unit !== undefined || before.startsWith("@");
      return (told ? put(before, speedName(digits)) : undefined) ?? speed;
    });
  const words = new Set(
    wordsOf(spoken)
      .map((word) => WRITTEN_OUT.get(word) ?? word)
      .filter((word) => !FILLERS.has(word)),
  );
  if (words.has("ac")) words.delete("voltage");
  // Everything is read at the battery unless it says otherwise.
  if (words.size > 2) words.delete("battery");
  return [...words].sort().join(" ");
}

function put(before: string, name: string | undefined): string | undefined {
  return name === undefined ? undefined : `${before} ${name}`;
}

function pairOf(leads: string): string | undefined {
  return PAIRS[leads as keyof typeof PAIRS];
}

function speedName(digits: string): string | undefined {
  const rpm = Number(digits.replaceAll(/\D/gu, ""));
  return rpm >= TEST_FROM ? "test speed" : rpm <= IDLE_TO ? "idle" : undefined;
}

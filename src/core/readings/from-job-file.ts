import { closest } from "fastest-levenshtein";
import { z } from "zod";
import { fail, faultMessage, ok, type Result } from "../result";
import { CATALOGUE, entryOf } from "./catalogue";
import { PAIRS, PHASES } from "./entries";
import { parseEntry } from "./parse";
import type { Job, Measured } from "./types";

/** One job of a job file: machine data and readings by catalogue id. */
export interface FiledJob {
  readonly id: string;
  readonly job: Job;
  /** Names among the readings that the job format does not have: nothing of theirs is weighed. */
  readonly unknown?: readonly string[];
}

const value = z.union([z.number(), z.string(), z.null()]).optional();
const three = z.union([z.array(value).max(3), z.null()]).optional();
const CASE = z.looseObject({
  caseId: z.union([z.string(), z.number()]).transform(String),
  spec: z
    .looseObject({
      noLoadVac: z.looseObject({ rpm: value, nominalV: value, tolerancePercent: value }).nullish(),
      statorLineLineOhm: z.looseObject({ minOhm: value, maxOhm: value, atTempC: value }).nullish(),
    })
    .nullish(),
  readings: z.looseObject({
    loadTest: z.looseObject({ rechargedBefore: z.boolean().nullish() }).nullish(),
    noLoadVacV: three,
    loadedVacAtTestRpmV: three,
    statorLineLineOhm: three,
    statorToGroundOhm: z.union([value, three]),
    diodeCheck: z
      .looseObject({ upperForwardV: three, lowerForwardV: three, upperReverseV: three, lowerReverseV: three })
      .nullish(),
  }),
});
type Case = z.infer<typeof CASE>;
const FILE = z.union([z.looseObject({ cases: z.array(z.unknown()) }), z.array(z.unknown())]);

/** Words of the file that our catalogue spells otherwise. */
const WORDS: Readonly<Record<string, string>> = {
  shunt_scr: "shunt",
  series_scr: "series",
  plain_diode: "plain diodes",
  gate_parallel: "parallel path",
};

const SPEC: Readonly<Record<string, string>> = {
  regulatedVdcMinV: "regulated-min",
  regulatedVdcMaxV: "regulated-max",
  ratedOutputW: "rated-output",
  ratedOutputRpm: "rated-output-rpm",
  keyOffDrawMaxMa: "key-off-limit",
  batteryCapacityAh: "battery-capacity",
  batteryCcaA: "battery-cca",
  batteryType: "battery-type",
  nominalLightsOnLoadA: "lights-load",
  regulatorType: "regulator-kind",
  bridgeUpperBankType: "bridge-kind",
  statorConnection: "stator-connection",
};

const READINGS: Readonly<Record<string, string>> = {
  batteryTempC: "battery-temperature",
  restedOcvV: "rested-voltage",
  keyOffDrawMa: "key-off-draw",
  crankingVoltageV: "cranking-voltage",
  idleRpm: "idle-rpm",
  idleBatteryVdcV: "idle-voltage",
  testRpm: "test-rpm",
  testRpmBatteryVdcV: "test-voltage",
  batteryCurrentAtTestRpmA: "battery-current",
  keyOnLoadCurrentA: "key-on-load",
  noLoadRpm: "no-load-rpm",
  meterOhmResolutionOhm: "meter-ohm-step",
  meterLeadsShortedOhm: "meter-leads",
  bplusDropV: "bplus-drop",
  groundDropV: "ground-drop",
  rectifierOutputCurrentDuringDropTestA: "drop-current",
  batteryRippleAtTestRpmVac: "battery-ripple",
};

const LOAD_TEST: Readonly<Record<string, string>> = {
  restedBeforeV: "load-test-rested",
  currentA: "load-test-current",
  durationS: "load-test-seconds",
  endVoltageV: "load-test-voltage",
};

/** Job files written from the catalogue's own ids need no translation. */
const OWN = z.looseObject({
  caseId: z.union([z.string(), z.number()]).transform(String),
  values: z.record(z.string(), value),
});

const LISTS = ["noLoadVacV", "loadedVacAtTestRpmV", "statorLineLineOhm", "statorToGroundOhm"];
/** Readings that stand together under one name. */
const GROUPS: Readonly<Record<string, readonly string[]>> = {
  loadTest: [...Object.keys(LOAD_TEST), "rechargedBefore"],
  diodeCheck: ["upperForwardV", "lowerForwardV", "upperReverseV", "lowerReverseV"],
};
const KNOWN_NAMES = [...Object.keys(READINGS), ...LISTS, ...Object.keys(GROUPS)];

/** Names among a job's readings that the format does not have. */
function unknownNames(readings: Case["readings"]): readonly string[] {
  const strange = (under: object, known: readonly string[], at = "") =>
    Object.keys(under).flatMap((name) => (known.includes(name) ? [] : [at + name]));
  return [
    ...strange(readings, KNOWN_NAMES),
    ...Object.entries(GROUPS).flatMap(([name, known]) =>
      strange((readings[name] as object | null | undefined) ?? {}, known, `${name}.`),
    ),
  ];
}

/**
 * Reads a job file's parsed JSON: an array of jobs, or an object with `cases`. What is known of the
 * true fault, if the file says, is not looked at.
 *
 * @param json - The parsed file
 * @returns Jobs in the file's order; the first job that cannot be read as a fault with its name
 */
export function jobsFromFile(json: unknown): Result<readonly FiledJob[]> {
  const file = FILE.safeParse(json);
  if (!file.success) {
    return fail({
      code: "not-understood",
      what: "job file",
      came: json === null ? "null" : typeof json,
      expected: 'a list of jobs, or an object with "cases": […], each job with "caseId" and "readings"',
    });
  }
  const jobs: FiledJob[] = [];
  const seen = new Set<string>();
  for (const [i, raw] of (Array.isArray(file.data) ? file.data : file.data.cases).entries()) {
    const read = readOne(raw, `job ${i + 1}`);
    if (!read.ok) return read;
    if (seen.has(read.value.id)) {
      return fail({
        code: "not-understood",
        what: `job ${i + 1}`,
        came: read.value.id,
        expected: "a caseId of its own for every job",
      });
    }
    seen.add(read.value.id);
    jobs.push(read.value);
  }
  return ok(jobs);
}

function readOne(raw: unknown, where: string): Result<FiledJob> {
  const own = OWN.safeParse(raw);
  if (own.success) return collect(own.data.caseId, Object.entries(own.data.values));
  const parsed = CASE.safeParse(raw);
  if (parsed.success) return collect(parsed.data.caseId, entriesOf(parsed.data), unknownNames(parsed.data.readings));
  // What is meant for our own ids is held against them.
  const path = (typeof raw === "object" && raw !== null && "values" in raw ? own : parsed).error!.issues[0]!.path;
  return fail({
    code: "not-understood",
    what: where,
    came: path.length > 0 ? path.join(".") : "this entry",
    expected: expectedAt(path.map(String)),
  });
}

/** What belongs into a place of the job file. */
function expectedAt([first, name, part]: readonly string[]): string {
  if (first === "caseId") return "a name or a number for the job";
  if (name === undefined) return 'an object with "caseId" and "readings", or "caseId" and "values"';
  if (part === "rechargedBefore") return "true, false or null";
  if (part === undefined && name in GROUPS) return `an object with ${GROUPS[name]!.join(", ")}`;
  if (first === "spec" && part === undefined) return "an object with its figures";
  if (LISTS.includes(name) || name === "diodeCheck") return "a list of up to three readings";
  return 'one reading: a number, a text such as "12.6 V", or null';
}

function entriesOf({ spec, readings }: Case): [string, unknown][] {
  const out: [string, unknown][] = [];
  const take = (
    from: Readonly<Record<string, unknown>> | null | undefined,
    names: Readonly<Record<string, string>>,
  ) => {
    for (const [name, id] of Object.entries(names)) out.push([id, from?.[name]]);
  };
  const takeList = (list: unknown, ids: readonly string[]) => {
    ids.forEach((id, i) => out.push([id, Array.isArray(list) ? list[i] : i === 0 ? list : undefined]));
  };
  take(spec, SPEC);
  take(spec?.noLoadVac, {
    rpm: "no-load-nominal-rpm",
    nominalV: "no-load-nominal",
    tolerancePercent: "no-load-tolerance",
  });
  take(spec?.statorLineLineOhm, { minOhm: "stator-ohms-min", maxOhm: "stator-ohms-max", atTempC: "stator-ohms-temp" });
  take(readings, READINGS);
  take(readings.loadTest, LOAD_TEST);
  const recharged = readings.loadTest?.rechargedBefore;
  if (recharged !== null && recharged !== undefined) out.push(["load-test-recharged", recharged ? "yes" : "no"]);
  const over = (prefix: string, suffixes: readonly string[]) => suffixes.map((s) => `${prefix}-${s}`);
  takeList(readings.noLoadVacV, over("no-load", PAIRS));
  takeList(readings.loadedVacAtTestRpmV, over("loaded", PAIRS));
  takeList(readings.statorLineLineOhm, over("winding", PAIRS));
  takeList(readings.statorToGroundOhm, over("ground", PHASES));
  takeList(readings.diodeCheck?.upperForwardV, over("upper-forward", PHASES));
  takeList(readings.diodeCheck?.lowerForwardV, over("lower-forward", PHASES));
  takeList(readings.diodeCheck?.upperReverseV, over("upper-reverse", PHASES));
  takeList(readings.diodeCheck?.lowerReverseV, over("lower-reverse", PHASES));
  return out;
}

function collect(
  id: string,
  entries: readonly (readonly [string, unknown])[],
  unknown: readonly string[] = [],
): Result<FiledJob> {
  const job = new Map<string, Measured>();
  for (const [entryId, raw] of entries) {
    if (raw === null || raw === undefined) continue;
    const entry = entryOf(entryId);
    if (!entry)
      return fail({
        code: "not-understood",
        what: id,
        came: entryId,
        expected: `ids of the readings catalogue, the nearest being "${closest(entryId, IDS)}"`,
      });
    const cell = typeof raw === "string" ? (WORDS[raw] ?? raw) : (raw as number);
    const parsed = parseEntry(cell, entry);
    if (!parsed.ok) {
      return fail({
        code: "refused",
        what: id,
        why: faultMessage(parsed.fault).replace(/\.$/u, ""),
        instead: "correct it in the file",
      });
    }
    if (parsed.value !== null) job.set(entryId, parsed.value);
  }
  return ok({ id, job, unknown });
}
const IDS = CATALOGUE.map((entry) => entry.id);

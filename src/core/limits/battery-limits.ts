import { STRICT_SPREAD, spreadUncertainty, spreadWords } from "../battery/cell-spread";
import { freezingPoint, gravityAtCharge } from "../battery/gravity";
import type { CrankingStandard } from "../battery/cranking-amps";
import { judgeLoadTest } from "../battery/load-test";
import { REST_TABLES } from "../battery/rest-tables";
import { restedVoltage, stateOfCharge, surfaceCharge } from "../battery/state-of-charge";
import { BATTERY_TYPES, BATTERY_WORDS } from "../battery/types";
import { judge, judgeNumber, NOT_READ, unsure } from "../judgement/judge";
import { rectangular } from "../judgement/uncertain";
import type { Judged, Limit } from "../judgement/types";
import { choiceIn, numberIn, quantityById } from "../readings/catalogue";
import { andThen, faultMessage } from "../result";
import { SOURCES } from "../sources";
import type { Frame } from "./frame";
import { forEach, type Room } from "./room";

/** A battery below this charge is charged before anything else is tested [1]. */
const CHARGE_NEEDED = 0.75;
/** Cells below this gravity differ by their charge alone. */
const CHARGED_GRAVITY = 1.225;

/** Rested voltage: is there enough charge to test anything else. */
function judgeRested(frame: Frame, id: string): Judged {
  const { job, type, nominal, nominalKnown, judging } = frame;
  const measured = job.get(id);
  if (measured?.kind !== "number") return NOT_READ;
  const hoursRested = id === "rested-voltage" ? numberIn(job, "hours-rested") : undefined;
  const possible = stateOfCharge(measured.value, type ?? "flooded", {
    nominal: nominalKnown || type === "lithium" ? nominal : undefined,
  });
  if (!possible.ok) return unsure(faultMessage(possible.fault));
  const limit = enoughCharge(frame);
  const left = rectangular(surfaceCharge(type ?? "agm", hoursRested) * frame.scale);
  return judge(quantityById(id), measured, { ...limit, u: Math.hypot(limit.u ?? 0, left) }, judging);
}

function enoughCharge({ type, nominal }: Frame): Limit {
  const at = (kind: (typeof BATTERY_TYPES)[number]) => {
    const volts = restedVoltage(CHARGE_NEEDED, kind, nominal);
    return volts.ok ? volts.value : Number.NaN;
  };
  const wanted = `${CHARGE_NEEDED * 100} % charge`;
  if (type === undefined) {
    const all = BATTERY_TYPES.filter((kind) => kind !== "lithium").map(at);
    const words = `${wanted} of a lead-acid battery; its type is not given`;
    return {
      low: Math.max(...all),
      lenient: { low: Math.min(...all) },
      origin: { from: "published", source: "battery-soc-table", words },
    };
  }
  const { source, spreadVolts } = REST_TABLES[type];
  const words = `${wanted}, ${BATTERY_WORDS[type]} battery: ${SOURCES[source].title}`;
  return { low: at(type), u: rectangular((spreadVolts * nominal) / 12), origin: { from: "published", source, words } };
}

/** Gravity of one cell against the best of its sisters. */
function judgeGravity(frame: Frame, id: string): Judged {
  const { job, judging, gravitySpread = STRICT_SPREAD } = frame;
  const own = numberIn(job, id);
  if (own === undefined) return NOT_READ;
  const others = [1, 2, 3, 4, 5, 6].map((cell) => `gravity-${cell}`).filter((other) => other !== id);
  const read = others.flatMap((other) => numberIn(job, other) ?? []);
  const entry = quantityById(id);
  if (read.length === 0)
    return unsure(`${entry.label}: a cell is judged against its sisters, and no other cell was read.`);
  const best = Math.max(own, ...read);
  const limit: Limit = {
    low: Number((best - gravitySpread).toFixed(6)),
    origin: {
      from: "published",
      source: "tm-9-6140-200-14",
      words: `${gravitySpread} below the best cell, ${spreadWords(gravitySpread)}`,
    },
  };
  const judged = judgeNumber(entry, own, spreadUncertainty(judging), limit, judging.rule);
  if (judged.state !== "fail" || best >= CHARGED_GRAVITY) return judged;
  return unsure(
    `${judged.reason.replace(/\.$/u, "")}, but the battery is discharged: charge it and read again.`,
    judged,
  );
}

/** Battery temperature: only whether its acid may be frozen. */
function judgeBatteryTemperature({ job, type, nominal, judging }: Frame): Judged | undefined {
  const measured = job.get("battery-temperature");
  if (measured?.kind !== "number" || measured.value >= 0 || type === "lithium") return undefined;
  const volts = numberIn(job, "rested-voltage");
  const charge = volts === undefined ? undefined : stateOfCharge(volts, type ?? "flooded", { nominal });
  const words = charge?.ok
    ? "freezing point of the acid at the charge that was read"
    : "freezing point of the acid of a flat battery; its charge was not read";
  const low = andThen(gravityAtCharge(charge?.ok ? charge.value : 0), freezingPoint);
  if (!low.ok) return undefined;
  const limit: Limit = {
    low: low.value,
    ...(charge?.ok ? {} : { lenient: {} }),
    origin: { from: "published", source: "od1002", words },
  };
  const judged = judge(quantityById("battery-temperature"), measured, limit, judging);
  return judged.state === "pass"
    ? judged
    : { ...judged, reason: `${judged.reason} A frozen battery is neither charged nor tested.` };
}

/** The load test as a whole, shown at its end voltage. */
function judgeLoadTestVoltage({ job, type, nominal, judging }: Frame): Judged {
  const volts = job.get("load-test-voltage");
  if (!volts) return NOT_READ;
  const amps = numberIn(job, "load-test-current");
  const cca = numberIn(job, "battery-cca");
  if (amps === undefined || cca === undefined) {
    const missing = amps === undefined ? "the load-test current" : "the cold cranking amps";
    return unsure(
      `Load-test voltage: without ${missing} it is not known whether the load was half the cold cranking amps.`,
    );
  }
  const recharged = choiceIn(job, "load-test-recharged") === "yes";
  const judged = judgeLoadTest(
    {
      volts,
      amps,
      cca,
      seconds: numberIn(job, "load-test-seconds") ?? 15,
      temperature: numberIn(job, "battery-temperature"),
      restedVolts: numberIn(job, "load-test-rested") ?? (recharged ? undefined : numberIn(job, "rested-voltage")),
      type,
      nominal,
      standard: choiceIn(job, "cca-standard") as CrankingStandard | undefined,
    },
    judging,
  );
  return judged.ok ? judged.value : unsure(faultMessage(judged.fault));
}

/** Readings of the battery that are judged by more than one number. */
export const BATTERY_ROOM: Room = {
  ...forEach(["rested-voltage", "load-test-rested"], judgeRested),
  ...forEach(
    [1, 2, 3, 4, 5, 6].map((cell) => `gravity-${cell}`),
    judgeGravity,
  ),
  "battery-temperature": judgeBatteryTemperature,
  "load-test-voltage": judgeLoadTestVoltage,
};

/** Cranking voltage: the trade's 9.6 V, and the 9.0 V a battery that the Army still accepts. */
export function crankingLimit({ scale }: Frame): Limit {
  return {
    low: 9.6 * scale,
    lenient: { low: 9 * scale },
    origin: {
      from: "published",
      source: "tm-9-2320-211-20",
      words: "9.6 V by common practice at 21 °C; never below 9.0 V, US Army TM 9-2320-211-20",
    },
  };
}

export function allowedKeyOffDraw({ job }: Frame): Limit | undefined {
  const allowed = numberIn(job, "key-off-limit");
  return allowed === undefined
    ? undefined
    : { high: allowed, origin: { from: "machine data", words: "key-off draw allowed for this machine" } };
}

export function usualKeyOffDraw(): Limit {
  return {
    high: 5,
    lenient: { high: 50 },
    origin: {
      from: "published",
      source: "common-practice",
      words: "up to 5 mA for motorcycles and ATVs, up to 50 mA for cars, common practice",
    },
  };
}

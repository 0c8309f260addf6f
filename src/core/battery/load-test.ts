import { judge, unsure, type JudgeOptions } from "../judgement/judge";
import type { Judged, Limit } from "../judgement/types";
import type { Measured } from "../readings/types";
import { outside } from "../range";
import { andThen, fail, ok, type Result } from "../result";
import { signed } from "../signed";
import { asCrankingStandard, type CrankingStandard } from "./cranking-amps";
import { loadLimit } from "./load-limit";
import { restedVoltage } from "./state-of-charge";
import type { BatteryType, NominalVolts } from "./types";

/** What was read and what is known of a load test. */
export interface LoadTest {
  /** Voltage at the end, load still on [V]. */
  readonly volts: Measured;
  /** Load [A]; half of the cold cranking amps is asked for. */
  readonly amps: number;
  /** Cold cranking amps [A]. */
  readonly cca: number;
  /** How long the load was on [s]; 15 s are asked for. */
  readonly seconds: number;
  /** Battery temperature [°C]; the limit is known only as a range without it. */
  readonly temperature?: number | undefined;
  /** Rested voltage before the test [V]; a low reading proves nothing without it. */
  readonly restedVolts?: number | undefined;
  /** Flooded where left out. */
  readonly type?: BatteryType | undefined;
  readonly nominal?: NominalVolts | undefined;
  /** SAE where left out, which the reason says. */
  readonly standard?: CrankingStandard | undefined;
}

/** Below this charge a good battery fails the load test as well. */
const CHARGE_NEEDED = 0.75;
/** A battery whose temperature nobody read is taken to be this cold to this warm [°C]. */
const ROOM = [5, 30] as const;

/**
 * Judges a load test: half the cold cranking amps for 15 s, at 75 % charge or more, the end voltage
 * against the ladder for the battery's temperature. A lighter or shorter load can only fail a
 * battery, a heavier or longer one can only pass it.
 *
 * @returns The judgement; `refused` below 75 % charge, for lithium, and for a rating of another
 *   standard than SAE; `outside-range` below −18 °C
 * @source tm-5-4210-230-14 table 5; common-practice half the SAE rating for 15 s at 75 % charge
 */
export function judgeLoadTest(test: LoadTest, options: JudgeOptions = {}): Result<Judged> {
  const nominal = test.nominal ?? 12;
  if (test.type === "lithium") {
    return fail({
      code: "refused",
      what: "battery type",
      why: "this load test and its limits are for lead-acid batteries",
      instead: "test a lithium battery as its maker says",
    });
  }
  const range =
    outside("cold cranking amps", test.cca, 1, 5000, "A") ??
    outside("load", test.amps, 0, 5000, "A") ??
    outside("time under load", test.seconds, 0, 300, "s");
  if (range) return range;
  const rated = asCrankingStandard(test.cca, test.standard ?? "SAE", "SAE");
  if (!rated.ok) return rated;
  const charged = chargeFault(test, nominal);
  if (charged) return charged;
  return andThen(limitFor(test.temperature, nominal), (limit) => {
    const judged = judge(
      { label: "Load-test voltage", unit: "V", decimals: 2, meter: "dc volts" },
      test.volts,
      limit,
      options,
    );
    return ok(asTheTestAllows(judged, test));
  });
}

function chargeFault(test: LoadTest, nominal: NominalVolts): Result<never> | undefined {
  if (test.restedVolts === undefined) return undefined;
  const needed = restedVoltage(CHARGE_NEEDED, test.type ?? "flooded", nominal);
  if (!needed.ok) return needed;
  if (test.restedVolts >= needed.value) return undefined;
  return fail({
    code: "refused",
    what: "load test",
    why: `at ${test.restedVolts.toFixed(2)} V rested the battery is below 75 % charge (${needed.value.toFixed(2)} V)`,
    instead: "charge it, let it rest and test again",
  });
}

function limitFor(temperature: number | undefined, nominal: NominalVolts): Result<Limit> {
  const origin = (words: string) => ({ from: "published", source: "tm-5-4210-230-14", words }) as const;
  if (temperature !== undefined) {
    return andThen(loadLimit(temperature, nominal), (low) =>
      ok({
        low,
        origin: origin(
          `load-test table at ${signed(String(Math.round(temperature)))} °C, US Army TM 5-4210-230-14&P-1`,
        ),
      }),
    );
  }
  return andThen(loadLimit(ROOM[0], nominal), (cold) =>
    andThen(loadLimit(ROOM[1], nominal), (warm) =>
      ok({
        low: warm,
        lenient: { low: cold },
        origin: origin(
          `load-test table at 21 °C and above; battery temperature not given, ${ROOM[0]} to ${ROOM[1]} °C assumed`,
        ),
      }),
    ),
  );
}

/** What a departure from the prescribed test leaves of the answer. */
function asTheTestAllows(judged: Judged, { amps, cca, seconds, restedVolts }: LoadTest): Judged {
  const asked = cca / 2;
  const reason = judged.reason.replace(/\.$/u, "");
  const tooLittle = amps < 0.9 * asked || seconds < 13;
  const tooMuch = amps > 1.1 * asked || seconds > 20;
  const was = `${plain(amps)} A for ${plain(seconds)} s, ${plain(asked)} A for 15 s asked for`;
  if (judged.state === "pass" && tooLittle)
    return unsure(`${reason}, but the load was too light or too short to prove it: ${was}.`, judged);
  if (judged.state === "fail" && tooMuch)
    return unsure(`${reason}, but the load was heavier or longer than the limit is for: ${was}.`, judged);
  if (judged.state === "fail" && restedVolts === undefined) {
    return unsure(
      `${reason}, but a discharged battery reads low as well: enter the rested voltage before the test.`,
      judged,
    );
  }
  return judged;
}

function plain(value: number): string {
  return String(Number(value.toPrecision(4)));
}

import { isBelowTestSpeed, judgedFrom } from "../limits/test-speed";
import { numberIn } from "../readings/catalogue";
import type { Measured } from "../readings/types";
import { n, type ContradictionCheck as Check } from "./contradiction";

export const speedsSwapped: Check = (job) => {
  const idle = numberIn(job, "idle-rpm");
  const test = numberIn(job, "test-rpm");
  if (idle === undefined || test === undefined || idle < test) return undefined;
  const readings = ["idle-rpm", "test-rpm"];
  return {
    kind: "speed mistyped",
    readings,
    setAside: readings,
    words: `Idle at ${n(idle, 0)} rpm is not below the test speed ${n(test, 0)} rpm; one of them is mistyped or they are swapped.`,
  };
};

const AT_TEST_SPEED = ["test-rpm", "test-voltage", "battery-current", "battery-ripple"];

/** Near idle a voltage below the band is no fault; one above the limit is a fault at any speed. */
export const belowTestSpeed: Check = (job, { voltScale, regulatedMax }) => {
  const volts = numberIn(job, "test-voltage");
  const rpm = numberIn(job, "test-rpm");
  if (volts === undefined || rpm === undefined || !isBelowTestSpeed(job)) return undefined;
  if (volts * voltScale > regulatedMax || (numberIn(job, "idle-rpm") ?? 0) >= rpm) return undefined;
  const atIdle = job.has("idle-voltage")
    ? []
    : [["idle-voltage", "test-voltage"] as const, ["idle-rpm", "test-rpm"] as const];
  return {
    kind: "taken too early",
    readings: ["test-voltage", "test-rpm"],
    setAside: AT_TEST_SPEED.filter((id) => job.has(id)),
    readAs: new Map(atIdle.map(([to, from]): [string, Measured] => [to, job.get(from)!])),
    words: `Running voltage at test speed ${n(volts)} V was read at ${n(rpm, 0)} rpm, below ${n(judgedFrom(job), 0)} rpm it counts as one at idle: raise the speed and read again.`,
  };
};

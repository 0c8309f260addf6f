import { jobsFromFile } from "../../../src/core/readings/from-job-file";
import { faultMessage } from "../../../src/core/result";

const one = {
  caseId: "x-1",
  spec: {
    regulatedVdcMinV: 13.5,
    batteryType: "agm",
    regulatorType: "shunt_scr",
    bridgeUpperBankType: "gate_parallel",
    noLoadVac: { rpm: 5000, nominalV: 60, tolerancePercent: 15 },
  },
  readings: {
    restedOcvV: 12.4,
    keyOffDrawMa: null,
    noLoadVacV: [60, 61.5, null],
    statorToGroundOhm: "OL",
    loadTest: { rechargedBefore: true, endVoltageV: 10.1 },
    diodeCheck: { upperForwardV: [0.15, 0.151, 0.149], upperReverseV: ["OL", "OL", "OL"] },
  },
  truth: { faultId: "nothing that is looked at" },
};

describe("job files", () => {
  it("map onto the catalogue", () => {
    const read = jobsFromFile({ cases: [one] });
    if (!read.ok) throw new Error(faultMessage(read.fault));
    const job = Object.fromEntries(
      [...read.value[0]!.job].map(([k, v]) => [k, v.kind === "overload" ? "OL" : v.value]),
    );
    expect(job).toEqual({
      "regulated-min": 13.5,
      "battery-type": "agm",
      "regulator-kind": "shunt",
      "bridge-kind": "parallel path",
      "no-load-nominal-rpm": 5000,
      "no-load-nominal": 60,
      "no-load-tolerance": 15,
      "rested-voltage": 12.4,
      "no-load-ab": 60,
      "no-load-bc": 61.5,
      "ground-a": "OL",
      "load-test-recharged": "yes",
      "load-test-voltage": 10.1,
      "upper-forward-a": 0.15,
      "upper-forward-b": 0.151,
      "upper-forward-c": 0.149,
      "upper-reverse-a": "OL",
      "upper-reverse-b": "OL",
      "upper-reverse-c": "OL",
    });
  });
  it("are read the same without what is known of the fault", () => {
    const { truth: _, ...without } = one;
    expect(jobsFromFile([without])).toEqual(jobsFromFile([one]));
  });
  it("may be written with the catalogue's own ids", () => {
    const read = jobsFromFile([{ caseId: 7, values: { "rested-voltage": "12,6 V", "battery-type": "Gel" } }]);
    expect(read.ok && [...read.value[0]!.job.keys()]).toEqual(["rested-voltage", "battery-type"]);
  });
  it("name what the format does not have, so that nothing typed is lost unsaid", () => {
    const read = jobsFromFile([
      { caseId: 1, readings: { restedOcv: 12.6, loadTest: { endVoltage: 9 }, restedOcvV: 12 } },
    ]);
    expect(read.ok && read.value[0]!.unknown).toEqual(["restedOcv", "loadTest.endVoltage"]);
    expect(jobsFromFile([one])).toMatchObject({ value: [{ unknown: [] }] });
  });
  const refused: [string, unknown, RegExp][] = [
    ["null", null, /job file: "null" cannot be read; enter a list of jobs/],
    ["a number", 3, /list of jobs/],
    ["a job without readings", [{ caseId: "a" }], /job 1: "readings" cannot be read/],
    ["a job without id", [{ readings: {} }], /job 1: "caseId"/],
    [
      "an impossible reading",
      [{ caseId: "a", readings: { restedOcvV: 900 } }],
      /a: Rested voltage: 900 V is not possible; enter 0 to 20 V; correct it in the file/,
    ],
    [
      "text for a reading",
      [{ caseId: "a", readings: { restedOcvV: "abc" } }],
      /a: Rested voltage: "abc" cannot be read/,
    ],
    ["an unknown id", [{ caseId: "a", values: { wings: 2 } }], /"wings" cannot be read/],
    [
      "a misspelt id",
      [{ caseId: "a", values: { restedvoltage: 12.6 } }],
      /"restedvoltage" cannot be read; enter ids of the readings catalogue, the nearest being "rested-voltage"/,
    ],
    [
      "a reading that is a list",
      [{ caseId: "a", values: { "rested-voltage": [12.6] } }],
      /job 1: "values\.rested-voltage" cannot be read; enter one reading: a number, a text such as "12\.6 V", or null/,
    ],
    [
      "four pairs",
      [{ caseId: "a", readings: { statorLineLineOhm: [1, 2, 3, 4] } }],
      /"readings\.statorLineLineOhm" cannot be read; enter a list of up to three readings/,
    ],
    ["the same id twice", [one, one], /job 2: "x-1"/],
  ];
  it.each(refused)("refuse %s with words that help", (_, json, message) => {
    const read = jobsFromFile(json);
    expect(read.ok ? "accepted" : faultMessage(read.fault)).toMatch(message);
  });
});

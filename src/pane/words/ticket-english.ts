import type { FaultId } from "../../core/diagnosis/faults";
import type { PartState } from "../../core/judgement/types";
import type { Part } from "../../core/readings/types";

/** Words of the customer's ticket, English: no trade word that its reader would have to look up. */
export const TICKET_ENGLISH = {
  title: "What we found on your machine",
  sheet: "Ticket",
  machine: "Machine",
  date: "Date",
  job: "Job",
  customer: "Customer",
  complaint: "You told us",
  found: "What we found",
  parts: "Part by part",
  next: "What we suggest",
  proof: "After the repair",
  /** The fault as the end of a sentence; a fault without words here keeps its trade name. */
  fault: {
    "battery-sulfated": "a battery that is worn out and no longer takes and gives enough current",
    "battery-shorted-cell": "a battery with one dead cell",
    "parasitic-drain": "something that draws current while the key is off and empties the battery",
    "excessive-load": "more lights and accessories than the machine can supply",
    "regulator-overcharge": "a voltage regulator that charges too hard, which harms the battery and the lights",
    "regulator-shunt-stuck-one-phase": "a voltage regulator that holds back part of the charging current",
    "regulator-shunt-stuck-all-phases": "a voltage regulator that holds back all of the charging current",
    "regulator-series-no-fire": "a voltage regulator that does not let the charging current through",
    "diode-open": "a voltage regulator that has lost one of its paths for the charging current",
    "diode-shorted": "a voltage regulator with a short circuit inside",
    "diode-leg-open": "a voltage regulator that has lost a third of its charging current",
    "regulator-leaks": "a voltage regulator through which the battery drains while the key is off",
    "stator-turns-shorted": "a charging coil in the engine with a short circuit inside",
    "stator-phase-open": "a charging coil in the engine, or its wire, that is broken",
    "stator-ground-leak": "a charging coil in the engine that touches the engine's metal",
    "rotor-demagnetised": "magnets in the engine that have lost their strength",
    "high-resistance-bplus": "a bad connection in the main charging wire",
    "high-resistance-ground": "a bad connection in the ground wire",
    "high-resistance-phase": "a burnt plug between the charging coils and the voltage regulator",
    "main-fuse-blown": "a blown main fuse or a broken main wire",
    "joint-fails-hot": "a connection that fails when it gets hot",
  } as Partial<Record<FaultId, string>>,
  verdict: {
    faulty: (fault: string) => `The cause is ${fault}. Our measurements of the part itself show it.`,
    suspect: (fault: string) =>
      `The most likely cause is ${fault}. This is not proven yet, so we do not replace anything on it.`,
    unproven: (fault: string) => `We cannot name the cause yet. One possibility is ${fault}; more checks are needed.`,
    healthy: "We found no fault in the charging system.",
    healthySoFar: "We have found no fault so far, but not every check is done.",
    nothing: "Nothing has been measured yet.",
  },
  part: {
    battery: "Battery",
    "regulator-rectifier": "Voltage regulator",
    stator: "Charging coils in the engine",
    rotor: "Magnets in the engine",
    wiring: "Wires, plugs and fuse",
    load: "Lights and accessories",
  } as Record<Part, string>,
  state: {
    serviceable: "in order",
    faulty: "needs repair",
    suspect: "to be checked further",
    unproven: "not fully checked",
  } as Record<PartState, string>,
  nextCheck: (minutes: number) => `One more check of about ${minutes} minutes, before any part is bought.`,
  repair: "Repair the part named above, then we measure again to be sure.",
  nothingMore: "Nothing more to check at this time.",
  proven: "We measured again after the repair: the machine charges as it should.",
  notCured: "We measured again after the repair: it does not charge as it should yet.",
};

export type TicketWords = typeof TICKET_ENGLISH;

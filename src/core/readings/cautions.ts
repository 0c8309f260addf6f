/**
 * Cautions that stand where a step is done. Wording ours; facts from the sources named, common
 * practice where none is.
 */
export const CAUTIONS = {
  manual: "Follow the machine's service manual and local codes; if unsure, ask a licensed technician.",
  hydrogen: "Batteries give off hydrogen: no flame, spark or cigarette near them, and air the room.",
  acid: "Battery acid burns: eye protection and gloves on, water to rinse with at hand.",
  "short circuit": "Rings, watch and chains off; a tool across the posts welds itself fast.",
  lithium: "Never charge a lithium pack below 0 °C, above its own limit, or with a lead-acid repair mode.",
  "damaged battery": "A frozen, swollen or leaking battery is neither charged nor tested: take it out of service.",
  "moving parts": "Keep hands, sleeves and leads clear of belts, chains, fan and wheels.",
  "hot exhaust": "Exhaust and engine are hot, and fumes kill: run outdoors or with extraction.",
  stand: "Machine on a stand that cannot roll, wheels chocked, out of gear.",
  "stator voltage":
    "A stator at speed gives far more than a safe touch voltage: hands off bare terminals, leads clipped on with the engine stopped.",
  "stator plug": "Part or join the stator plug only with the engine stopped.",
  "battery connected": "Never run the engine with the battery disconnected.",
  "negative first": "Negative cable off first and on last.",
  "ammeter in series": "No cranking and no key-on through an ammeter: its fuse or the meter will go.",
  "modules asleep": "Wait until all modules are asleep before reading the draw, up to 30 minutes on some machines.",
  insulation: "A 500 V insulation check only with every electronic unit unplugged and where the manual allows it.",
  "load test": "A load test draws hundreds of amperes: clamps tight before the load is switched on, off after 15 s.",
} as const;

export type CautionId = keyof typeof CAUTIONS;

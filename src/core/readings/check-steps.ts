/**
 * How each check is taken, by its id: what to do, where the red and the black lead go. One sentence a step.
 * Functions go without them, and so do the threads of an audit.
 */
const STEPS: Readonly<Record<string, readonly string[]>> = {
  "battery-at-rest": [
    "Look at the battery first: cracks, bulge, leaks, loose or green posts.",
    "Everything off; lights on for 15 s, off, then wait, to take off the surface charge. Note the hours at rest.",
    "Meter on DC volts: red on the positive post itself, black on the negative post.",
  ],
  "cell-gravities": [
    "Flooded batteries with caps only. Draw acid up and down a few times so that the hydrometer takes its temperature.",
    "Read each cell at eye level, starting at the positive post; give the acid back to its own cell.",
  ],
  "load-test": [
    "Battery at 75 % charge or more; charge and rest it first otherwise, and write down the rested voltage.",
    "Clamps on the posts, red on positive, black on negative, load off.",
    "Half the cold cranking amps for 15 s; read the voltage with the load still on.",
  ],
  cranking: [
    "Ignition or fuel disabled as the manual says.",
    "Red on the positive post, black on the negative post; crank for at most 5 s and read the lowest steady value.",
  ],
  "key-off-draw": [
    "Key off, everything off; wait until all modules are asleep.",
    "Meter on mA, leads in the current sockets: negative cable off, red on the cable, black on the negative post.",
    "A low-range clamp round the negative cable does it without opening the circuit.",
  ],
  "running-idle": [
    "Engine warm, lights on; note the speed.",
    "Meter on DC volts: red on the positive post, black on the negative post.",
  ],
  "running-test": [
    "Engine warm, lights on, speed held steady; note the speed.",
    "DC volts at the posts, red on positive, black on negative.",
    "Meter on AC volts, same place: the ripple.",
    "DC clamp round every lead on the positive post, arrow to the battery: the battery current, plus is charging.",
  ],
  "no-load-ac": [
    "Engine stopped: part the stator plug. Clip the leads on two stator terminals, then start.",
    "Meter on AC volts; same speed for A–B, B–C and C–A, engine stopped to move the clips.",
    "A second speed shows whether the output rises in proportion.",
  ],
  "loaded-ac": [
    "Plug joined; back-probe the stator terminals with the engine stopped.",
    "Meter on AC volts, true rms; lights on, same speed for A–B, B–C and C–A.",
  ],
  "winding-ohms": [
    "Engine stopped, stator plug parted, stator cooled down; note its temperature.",
    "Touch the two leads together and note what the meter shows.",
    "Read A–B, B–C and C–A on the stator side of the plug.",
  ],
  "winding-to-ground": [
    "Engine stopped, stator plug parted. Black on bare engine metal, red on each stator terminal in turn, highest range.",
  ],
  insulation: [
    "Only where the manual allows it: stator plug parted, every electronic unit unplugged.",
    "500 V DC from one stator terminal to bare engine metal for 1 minute; then discharge the winding.",
  ],
  rotor: ["Field-excited alternators only: connector off, red and black on the two field terminals."],
  "diode-check": [
    "Engine stopped: unit unplugged from the stator and from the harness, on the bench or in place.",
    "Upper, forward: red on the phase, black on B+. Upper, reverse: swapped.",
    "Lower, forward: red on ground, black on the phase. Lower, reverse: swapped.",
    "Note OL where the display shows over-range.",
  ],
  "output-short": ["Unit unplugged on both sides: red on B+ and black on ground, then swapped."],
  "case-leakage": [
    "Unit unplugged on both sides, highest range: black on the bare case, red on each terminal in turn; note the lowest. Skip ground where the case is the ground.",
  ],
  "voltage-drops": [
    "Plugs joined, lights on, engine at test speed, leads clipped on with the engine stopped.",
    "B+ run: red on the regulator's B+ terminal, black on the battery's positive post.",
    "Ground run: red on the battery's negative post, black on the regulator's ground.",
    "Clamp round the B+ lead: the current during the test.",
  ],
  "phase-drops": [
    "Back-probe both sides of each phase connector with the engine stopped; AC volts across it at test speed, lights on.",
  ],
  "key-on-load": [
    "Key on, engine off, lights and the usual accessories on; DC clamp round the leads on the positive post.",
  ],
};

export function stepsOf(checkId: string): readonly string[] {
  return STEPS[checkId] ?? [];
}

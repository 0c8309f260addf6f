/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useWords } from "../words/words";
import type { MeterView } from "./battery-drawings";
import { Box, Current, Drawing, Node, Note, Wire } from "./kit";
import { Clamp, Lead, Meter, socketsBelow } from "./meters";
import { at } from "./points";
import type { Phase } from "./placements";

const BPLUS = at(80, 112);
const UNIT_GROUND = at(80, 190);
const PLUS = at(250, 112);
const MINUS = at(250, 190);

/** The charging circuit as a loop: out of the unit along the B+ run, back from the battery along the ground run. */
function Loop({ strong }: { readonly strong: "B+" | "ground" | "none" }): JSX.Element {
  const { drawing: d } = useWords();
  return (
    <g>
      <Box x={4} y={98} width={72} height={106} name={d.unitLines[0]} second={d.unitLines[1]} />
      <path class={strong === "B+" ? "cw-wire cw-run" : "cw-wire"} d={`M76 ${BPLUS.y}H${PLUS.x}`} />
      <path class={strong === "ground" ? "cw-wire cw-run" : "cw-wire"} d={`M76 ${UNIT_GROUND.y}H${MINUS.x}`} />
      <Wire points={[PLUS, at(250, 138)]} />
      <Wire points={[MINUS, at(250, 163)]} />
      <path class="cw-plates" d="M236 138h28M242 146h16M236 155h28M242 163h16" />
      <text class="cw-sign" x="276" y="142" text-anchor="middle">
        +
      </text>
      <text class="cw-sign" x="276" y="171" text-anchor="middle">
        −
      </text>
      <Node p={BPLUS} place="B+" />
      <Node p={UNIT_GROUND} place="unit ground" />
      <Node p={PLUS} place="battery +" />
      <Node p={MINUS} place="battery -" />
      <rect class="cw-part" x="196" y={BPLUS.y - 7} width="26" height="14" rx="7" />
      <path class="cw-wire cw-thin" d={`M196 ${BPLUS.y}h26`} />
      <rect class="cw-part" x="150" y={UNIT_GROUND.y - 6} width="9" height="12" />
      <rect class="cw-part" x="159" y={UNIT_GROUND.y - 6} width="9" height="12" />
    </g>
  );
}

/** Meter across one run of the charging circuit while current flows. */
export function DropDrawing({ placement, shows }: MeterView): JSX.Element {
  const { drawing: d } = useWords();
  const positive = placement.red === "B+";
  const above = socketsBelow(98, 8);
  const below = { black: at(116, 222), red: at(184, 222) };
  return (
    <Drawing
      title={positive ? d.dropTitle.positive : d.dropTitle.ground}
      description={positive ? d.dropDescription.positive : d.dropDescription.ground}
      height={positive ? 226 : 276}
      top={positive ? 0 : 70}
    >
      <Loop strong={positive ? "B+" : "ground"} />
      <Note x={135} y={140}>
        {d.bplusRun}
      </Note>
      <Current from={at(108, 126)} to={at(162, 126)} />
      <Note x={162} y={166}>
        {d.groundRun}
      </Note>
      <Current from={at(190, 176)} to={at(136, 176)} />
      {positive ? (
        <>
          <Meter x={98} y={8} dial={d.dial[placement.meter]} shows={shows} sockets={above} />
          <Lead
            colour="red"
            place="B+"
            points={[above.red, at(above.red.x, 74), at(BPLUS.x + 4, 74), at(BPLUS.x + 4, 106)]}
          />
          <Lead
            colour="black"
            place="battery +"
            points={[above.black, at(above.black.x, 74), at(PLUS.x, 74), at(PLUS.x, 106)]}
          />
          <Note x={150} y={220}>
            {d.lightsOnAtSpeed}
          </Note>
        </>
      ) : (
        <>
          <Note x={150} y={86}>
            {d.lightsOnAtSpeed}
          </Note>
          <Meter x={98} y={222} dial={d.dial[placement.meter]} shows={shows} sockets={below} />
          <Lead
            colour="black"
            place="unit ground"
            points={[below.black, at(below.black.x, 210), at(UNIT_GROUND.x + 4, 210), at(UNIT_GROUND.x + 4, 196)]}
          />
          <Lead
            colour="red"
            place="battery -"
            points={[below.red, at(below.red.x, 210), at(MINUS.x, 210), at(MINUS.x, 196)]}
          />
        </>
      )}
    </Drawing>
  );
}

/** The current that goes with the drops: a clamp round the B+ lead. */
export function RunClampDrawing({ shows }: MeterView): JSX.Element {
  const { drawing: d } = useWords();
  return (
    <Drawing title={d.runClampTitle} description={d.runClampDescription} height={216} top={60}>
      <Loop strong="B+" />
      <Clamp p={at(136, BPLUS.y)} pointsRight shows={shows} dial={d.dial["clamp amps"]} />
      <Note x={136} y={76}>
        {d.arrowToBattery}
      </Note>
    </Drawing>
  );
}

/** AC across one joined connector, pin by pin. */
export function PhaseDropDrawing({
  placement,
  shows,
  phase,
  phases,
}: MeterView & { readonly phase: Phase; readonly phases: readonly Phase[] }): JSX.Element {
  const { drawing: d } = useWords();
  const y = (p: Phase) => 126 + phases.indexOf(p) * 30;
  const last = y(phases.at(-1)!);
  const sockets = socketsBelow(98, 8);
  return (
    <Drawing
      title={d.phaseDropTitle(phase.toUpperCase())}
      description={d.phaseDropDescription(phase.toUpperCase())}
      height={last + 42}
    >
      <Box x={228} y={y("a") - 16} width={68} height={last - y("a") + 32} name={d.unitShort} />
      {phases.map((p) => (
        <g key={p}>
          <path class={p === phase ? "cw-wire cw-run" : "cw-wire"} d={`M34 ${y(p)}H228`} />
          <Note x={84} y={y(p) - 5} strong={p === phase}>
            {p.toUpperCase()}
          </Note>
        </g>
      ))}
      <circle class="cw-part cw-solid" cx="34" cy={(y("a") + last) / 2} r="33" />
      <Note x={34} y={(y("a") + last) / 2 + 4}>
        {d.stator}
      </Note>
      <rect class="cw-part cw-solid" x="132" y={y("a") - 13} width="18" height={last - y("a") + 26} rx="3" />
      <rect class="cw-part cw-solid" x="150" y={y("a") - 13} width="18" height={last - y("a") + 26} rx="3" />
      <Note x={150} y={last + 32}>
        {d.plugJoined}
      </Note>
      <Node p={at(116, y(phase))} place="stator side" />
      <Node p={at(184, y(phase))} place="regulator side" />
      <Meter x={98} y={8} dial={d.dial[placement.meter]} shows={shows} sockets={sockets} />
      <Lead colour="red" place="stator side" points={[sockets.red, at(116, y(phase))]} />
      <Lead colour="black" place="regulator side" points={[sockets.black, at(184, y(phase))]} />
    </Drawing>
  );
}

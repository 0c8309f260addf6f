/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useWords } from "../words/words";

/** The views that the pane's first line leads to, in the order in which they stand there. */
export const SECTIONS = ["job", "counter", "knownGood", "tables", "settings"] as const;
export type Section = (typeof SECTIONS)[number];

/** A sign for each view, drawn on 20 × 20 with lines of one weight. */
const SIGNS: Readonly<Record<Section, string>> = {
  // A job card on its board, the first line done.
  job: "M5.500 4h-1.500v13h12v-13h-1.500M7.500 2.500h5v3h-5zM6.800 9.300l1.200 1.200l1.800 -2.200M11.800 9.500h1.700M6.800 13.500h6.700",
  // A slip with its lines and its total.
  counter:
    "M5 2.500h10v15l-1.700 -1.200l-1.650 1.200l-1.650 -1.200l-1.650 1.200l-1.650 -1.200l-1.700 1.200zM7.500 6.200h5M7.500 9.200h5M10 12.500h2.500",
  // A regulator-rectifier with its fins, found good.
  knownGood:
    "M3 7.500h14v9.500h-14zM5.500 7.500v-4M8.500 7.500v-4M11.500 7.500v-4M14.500 7.500v-4M6.800 12.200l2.200 2.200l4.300 -4.600",
  // A table with its header row.
  tables: "M3 4h14v12.500h-14zM3 8h14M3 12.200h14M8 4v12.500",
  // Three slides, each set its own way.
  settings:
    "M3 5h5M11 5h6M8 3.300h3v3.400h-3zM3 10h8.500M14.500 10h2.500M11.500 8.300h3v3.400h-3zM3 15h2M8 15h9M5 13.300h3v3.400h-3z",
};

/** A sign with its word below, all of one width, so that one more finds room in the narrowest pane. */
export function Navigation({
  section,
  onGo,
}: {
  readonly section: Section;
  readonly onGo: (section: Section) => void;
}): JSX.Element {
  const words = useWords();
  return (
    <nav class="cw-nav" aria-label={words.nav.label}>
      {SECTIONS.map((name) => (
        <button
          key={name}
          type="button"
          data-section={name}
          aria-current={section === name ? "page" : undefined}
          onClick={() => onGo(name)}
        >
          <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true" focusable="false">
            <path d={SIGNS[name]} />
          </svg>
          {words.nav[name]}
        </button>
      ))}
    </nav>
  );
}

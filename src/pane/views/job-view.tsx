/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useMemo, useRef, useState } from "preact/hooks";
import { assess, expectedLimit, previewOf } from "../assess";
import type { ListSheet } from "../../workbook/list-sheet";
import type { OpenJob } from "../open-job";
import { useAssessment } from "../use-assessment";
import type { ListWatch } from "../use-list";
import { checksInOrder } from "../working-order";
import { useWords } from "../words/words";
import { Answer } from "./answer";
import { checkButtonId, CheckList } from "./check-list";
import { CheckView } from "./check-view";
import { FactsView } from "./facts-view";
import { ProofView } from "./proof-view";
import { TicketView } from "./ticket-view";
import { useFocusMove } from "./use-focus-move";
import { Visits } from "./visit-view";

type View =
  | { readonly at: "overview" }
  | { readonly at: "facts" }
  | { readonly at: "proof" }
  | { readonly at: "ticket" }
  | { readonly at: "check"; readonly id: string };

interface JobViewProps {
  readonly open: OpenJob;
  readonly knownGood: ListSheet | undefined;
  readonly visits: ListWatch;
  /** Which job this is and how to change it; out of the way while a check is open. */
  readonly bar: JSX.Element;
  readonly onWritten: () => Promise<void>;
  /** Another job was opened on this sheet. */
  readonly onReopened: (sheet: string) => Promise<void>;
}

/** One job: the answer on top, the checks below; a check opens in their place. */
export function JobView({ open, knownGood, visits, bar, onWritten, onReopened }: JobViewProps): JSX.Element {
  const words = useWords();
  const [view, setView] = useState<View>({ at: "overview" });
  const returnTo = useRef<string | undefined>(undefined);
  const { job, faults } = open.before;
  const { assessment, options } = useAssessment(job, knownGood);
  const checks = useMemo(() => checksInOrder(job, assessment.judged), [job, assessment]);
  const suggested = assessment.nextChecks[0]?.check;

  useFocusMove(() => {
    if (view.at !== "overview" || returnTo.current === undefined) return;
    document.getElementById(returnTo.current)?.focus();
    returnTo.current = undefined;
  }, [view]);
  const back = (id: string) => () => {
    returnTo.current = id;
    setView({ at: "overview" });
  };

  if (view.at === "facts") return <FactsView open={open} onBack={back("cw-open-facts")} onWritten={onWritten} />;
  if (view.at === "proof")
    return <ProofView open={open} options={options} onBack={back("cw-open-proof")} onWritten={onWritten} />;
  if (view.at === "ticket")
    return <TicketView open={open} assessment={assessment} options={options} onBack={back("cw-open-ticket")} />;
  if (view.at === "check") {
    const inUse = checks.filter((check) => check.applies || check.check.id === view.id);
    const at = inUse.findIndex((check) => check.check.id === view.id);
    const progress = inUse[at];
    if (progress) {
      return (
        <>
          <CompactAnswer assessment={assessment} />
          <CheckView
            open={open}
            progress={progress}
            judged={assessment.judged}
            preview={(id, measured) => previewOf(job, id, measured, options)}
            knownGood={options.knownGood}
            expected={(id) => expectedLimit(job, id, options)}
            previous={inUse[at - 1]}
            next={inUse[at + 1]}
            onOpen={(id) => setView({ at: "check", id })}
            onBack={back(checkButtonId(view.id))}
            onWritten={onWritten}
          />
        </>
      );
    }
  }
  return (
    <>
      {bar}
      <Answer
        assessment={assessment}
        faults={[...faults.values()]}
        onOpenCheck={(id) => setView({ at: "check", id })}
      />
      <button type="button" class="cw-row cw-facts" id="cw-open-facts" onClick={() => setView({ at: "facts" })}>
        <span class="cw-row-name">{words.checks.machineData}</span>
      </button>
      <CheckList checks={checks} suggested={suggested} onOpen={(id) => setView({ at: "check", id })} />
      <button type="button" class="cw-row cw-facts" id="cw-open-proof" onClick={() => setView({ at: "proof" })}>
        <span class="cw-row-name">{words.proof.open}</span>
      </button>
      <button type="button" class="cw-row" id="cw-open-ticket" onClick={() => setView({ at: "ticket" })}>
        <span class="cw-row-name">{words.tickets.heading}</span>
      </button>
      <Visits open={open} visits={visits} onReopened={onReopened} />
    </>
  );
}

/** The verdict in one line while a check is open. */
function CompactAnswer({ assessment }: { readonly assessment: ReturnType<typeof assess> }): JSX.Element {
  const words = useWords();
  const verdict = assessment.explained?.diagnosis.verdict;
  return (
    <p class="cw-compact" role="status" aria-live="polite">
      {verdict ? words.said(verdict.sentence) : words.answer.nothingRead}
    </p>
  );
}

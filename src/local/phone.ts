import { browserStorage } from "../pane/browser-storage";
import { chosenLanguage } from "../pane/chosen-language";
import { mountPane } from "../pane/mount";
import { RemoteWorkbook, type Line } from "./remote-workbook";
import type { Answered, DeskEvent } from "./share-protocol";
import { SpokenWords } from "./words";
import "./phone.css";

/** The page of a phone: the pane, working on the workbook that is open on the shop's computer. */
const status = document.getElementById("link")!;
const language = chosenLanguage(browserStorage(), navigator.language);
const spoken = new SpokenWords(language);
document.documentElement.lang = language;

const UNREACHABLE: Answered = {
  fault: {
    message: "The shop's computer cannot be reached. What you typed stays in its field; try again when it is back.",
    reason: "host",
  },
};

const line: Line = {
  ask: async (body) => {
    const response = await fetch("/share/call", { method: "POST", body }).catch(() => undefined);
    // The program was started anew, or the day is over: join again.
    if (response?.status === 401) location.assign("/join");
    return response?.ok ? ((await response.json()) as Answered) : UNREACHABLE;
  },
  listen: (listener) => {
    const stream = new EventSource("/share/events");
    stream.addEventListener("open", () => (status.textContent = ""));
    stream.addEventListener("error", () => (status.textContent = spoken.words.unreachable));
    stream.addEventListener("desk", ({ data }: MessageEvent<string>) => {
      const event = JSON.parse(data) as DeskEvent;
      if (event.kind === "another workbook") location.reload();
      else listener(event);
    });
  },
};

mountPane(document.getElementById("pane")!, new RemoteWorkbook(line), {
  onLanguage: (chosen) => {
    spoken.speak(chosen);
    document.documentElement.lang = chosen;
    if (status.textContent !== "") status.textContent = spoken.words.unreachable;
  },
});
document.documentElement.dataset["ready"] = "";

import type { Workbook } from "../workbook/port";
import { answerCall } from "./desk-answers";
import type { Desk } from "./desk";
import type { Notices } from "./notices";
import type { DeskEvent } from "./share-protocol";
import type { PageWords } from "./words";

/**
 * Lets phones work on the workbook that lies on the desk, where the server was started for that.
 *
 * @returns The way to stop
 */
export async function linkPhones(desk: Desk, notices: Notices, words: PageWords): Promise<() => void> {
  const shared = await fetch("share/desk", { method: "HEAD" }).catch(() => undefined);
  if (shared?.status !== 200) return () => undefined;
  const stream = new EventSource("share/desk");
  stream.addEventListener("call", ({ data }: MessageEvent<string>) => {
    void answerCall(desk.workbook, data).then((answer) => post("share/answer", answer));
  });
  stream.addEventListener("phones", ({ data }: MessageEvent<string>) => {
    const count = Number(data);
    if (count === 0) notices.clear("phones");
    else notices.show("phones", { text: words.phone(count) });
  });
  const tell = (event: DeskEvent) => void post("share/event", event);
  let followed: Workbook | undefined;
  let stops: (() => void)[] = [];
  const follow = () => {
    if (followed === desk.workbook) return;
    if (followed) tell({ kind: "another workbook" });
    stops.forEach((stop) => stop());
    followed = desk.workbook;
    stops = [
      followed.onEdit((at) => tell({ kind: "edit", at })),
      followed.onCalculated(() => tell({ kind: "calculated" })),
    ];
  };
  follow();
  const stopWatching = desk.onChange(follow);
  return () => {
    stopWatching();
    stops.forEach((stop) => stop());
    stream.close();
    notices.clear("phones");
  };
}

async function post(address: string, body: unknown): Promise<void> {
  await fetch(address, { method: "POST", body: JSON.stringify(body) }).catch(() => undefined);
}

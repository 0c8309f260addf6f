import type { ServerResponse } from "node:http";
import { isSharedCall, type Answered, type AnswerMessage, type CallMessage } from "./share-protocol";

/** A page that does not answer for so long is asleep or gone. */
const LONGEST_ANSWER_MS = 20_000;

const CLOSED: Answered = {
  fault: {
    message: "The workbook is not open on the shop's computer. Open the page there, then try again.",
    reason: "host",
  },
};

/**
 * Between the phones and the page that holds the workbook: a call goes to the page, its answer back to
 * the phone that asked. The server itself keeps nothing of either.
 */
export class Relay {
  private desk: ServerResponse | undefined;
  private readonly phones = new Set<ServerResponse>();
  private readonly asked = new Map<number, (answer: Answered) => void>();
  private calls = 0;

  /** The page on this computer; the newest one counts. */
  joinDesk(stream: ServerResponse): void {
    this.desk?.end();
    this.desk = openStream(stream);
    stream.on("close", () => {
      if (this.desk !== stream) return;
      this.desk = undefined;
      for (const answer of this.asked.values()) answer(CLOSED);
    });
    this.countPhones();
  }

  joinPhone(stream: ServerResponse): void {
    this.phones.add(openStream(stream));
    stream.on("close", () => {
      this.phones.delete(stream);
      this.countPhones();
    });
    this.countPhones();
  }

  /** Asks the page; its answer, or why there is none. */
  call(method: unknown, args: unknown): Promise<Answered> {
    const { desk } = this;
    if (!isSharedCall(method) || !Array.isArray(args))
      return Promise.resolve({ fault: { message: "This cannot be asked from a phone.", reason: "unsupported" } });
    if (!desk) return Promise.resolve(CLOSED);
    const id = ++this.calls;
    return new Promise((resolve) => {
      const late = setTimeout(() => answer(CLOSED), LONGEST_ANSWER_MS);
      const answer = (given: Answered) => {
        clearTimeout(late);
        this.asked.delete(id);
        resolve(given);
      };
      this.asked.set(id, answer);
      send(desk, "call", { id, method, args } satisfies CallMessage);
    });
  }

  answer(message: AnswerMessage): void {
    this.asked.get(message.id)?.(message);
  }

  /** Passes on what the page says to every phone. */
  tell(event: unknown): void {
    for (const phone of this.phones) send(phone, "desk", event);
  }

  close(): void {
    this.desk?.end();
    for (const phone of this.phones) phone.end();
  }

  private countPhones(): void {
    if (this.desk) send(this.desk, "phones", this.phones.size);
  }
}

function openStream(stream: ServerResponse): ServerResponse {
  stream.writeHead(200, { "Content-Type": "text/event-stream", "Cache-Control": "no-store" });
  // Says at once that the stream stands.
  stream.write(": open\n\n");
  return stream;
}

function send(stream: ServerResponse, event: string, data: unknown): void {
  stream.write(`event: ${event}\ndata: ${JSON.stringify(data)}\n\n`);
}

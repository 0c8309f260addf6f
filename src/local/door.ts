import { createHash, randomBytes, randomInt, timingSafeEqual } from "node:crypto";

/** Wrong codes until nobody gets in any more, from whatever phone they come. */
const MOST_WRONG = 5;
const CODE_LIVES_MS = 10 * 60_000;
/** A working day. */
export const SESSION_LIVES_S = 12 * 60 * 60;

export type Knock =
  | { readonly opened: true; readonly session: string }
  | { readonly opened: false; readonly why: "wrong" | "locked" | "no code"; readonly triesLeft: number };

/**
 * Who may come in from the network: each code lets in one phone, once. After five wrong ones the code
 * is dead, and a new one is made at the computer itself; so a guesser has five tries in a million.
 */
export class Door {
  private code: { readonly digest: Buffer; readonly until: number } | undefined;
  private wrong = 0;
  private readonly sessions = new Map<string, number>();

  constructor(private readonly now: () => number = Date.now) {}

  /** A new code of six digits; the one before, used or not, is void. */
  newCode(): string {
    const code = String(randomInt(1_000_000)).padStart(6, "0");
    this.code = { digest: digestOf(code), until: this.now() + CODE_LIVES_MS };
    this.wrong = 0;
    return code;
  }

  knock(typed: string): Knock {
    if (this.wrong >= MOST_WRONG) return { opened: false, why: "locked", triesLeft: 0 };
    const { code } = this;
    if (!code || this.now() > code.until) return { opened: false, why: "no code", triesLeft: 0 };
    if (!timingSafeEqual(digestOf(typed.replaceAll(/\D/gu, "")), code.digest)) {
      this.wrong++;
      const triesLeft = MOST_WRONG - this.wrong;
      return { opened: false, why: triesLeft === 0 ? "locked" : "wrong", triesLeft };
    }
    this.code = undefined;
    const session = randomBytes(32).toString("base64url");
    this.sessions.set(digestOf(session).toString("hex"), this.now() + SESSION_LIVES_S * 1000);
    return { opened: true, session };
  }

  knows(session: string | undefined): boolean {
    const until = session === undefined ? undefined : this.sessions.get(digestOf(session).toString("hex"));
    return until !== undefined && this.now() <= until;
  }
}

/** Compared as digests, so that neither length nor content shows in the time it takes. */
function digestOf(text: string): Buffer {
  return createHash("sha256").update(text).digest();
}

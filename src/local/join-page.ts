import type { Knock } from "./door";

/** The page by which a phone comes in: a field for the code, no script. */
export function joinPage(fault?: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>Join · Chargewright</title>
<style>
body{font:1.125rem/1.5 system-ui,sans-serif;max-width:24rem;margin:2rem auto;padding:0 1rem;color:#1f2326;background:#fff}
input,button{font:inherit;width:100%;box-sizing:border-box;padding:.6rem;margin-top:.5rem;border-radius:6px;border:1px solid #5d676d}
input{letter-spacing:.25em;font-size:1.5rem}
button{background:#0b6464;color:#fff;border-color:#0b6464}
.fault{color:#7f1d1d;font-weight:600}
@media (prefers-color-scheme:dark){body{color:#e8ebed;background:#1d2123}.fault{color:#ffb4ab}}
</style>
</head>
<body>
<h1>Join the workbook</h1>
<p>The code stands in the window of the computer that runs Chargewright. It lets in one phone.</p>
${fault === undefined ? "" : `<p class="fault" role="alert">${fault}</p>`}
<form method="post" action="/join">
<label for="code">Code</label>
<input id="code" name="code" inputmode="numeric" autocomplete="one-time-code" maxlength="7" required autofocus>
<button>Join</button>
</form>
</body>
</html>
`;
}

export function whyNot(knock: Knock & { opened: false }): string {
  switch (knock.why) {
    case "wrong":
      return `That is not the code. ${knock.triesLeft === 1 ? "One try is" : `${knock.triesLeft} tries are`} left.`;
    case "locked":
      return "Too many wrong codes: this code is void. Press Enter at the computer for a new one.";
    case "no code":
      return "There is no code to join with at the moment. Press Enter at the computer for a new one.";
  }
}

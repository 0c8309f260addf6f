import type { JoinWords } from "./join-words";

/** The page by which a phone comes in: a field for the code, no script. */
export function joinPage(words: JoinWords, fault?: string): string {
  return `<!doctype html>
<html lang="${words.language}">
<head>
<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>${words.title} · Chargewright</title>
<style>
:root{color-scheme:light dark;--ink:#1f2326;--ground:#fff;--edge:#5a6268;--accent:#1f5a6e;--on-accent:#fff;--fail:#a3262a}
@media (prefers-color-scheme:dark){:root{--ink:#e8ebed;--ground:#1d2123;--edge:#a6afb5;--accent:#7cc3d8;--on-accent:#0b2530;--fail:#ff9c97}}
body{font:1.125rem/1.5 system-ui,sans-serif;max-width:24rem;margin:2rem auto;padding:0 1rem;color:var(--ink);background:var(--ground)}
h1{font-size:1.5rem;line-height:1.25}
label{display:block;margin-top:1.25rem;font-weight:600}
input,button{font:inherit;width:100%;box-sizing:border-box;min-height:3rem;padding:.5rem .75rem;border:1px solid var(--edge);border-radius:6px}
input{margin-top:.25rem;letter-spacing:.25em;font-size:1.5rem;color:inherit;background:var(--ground)}
button{margin-top:.75rem;background:var(--accent);color:var(--on-accent);border-color:var(--accent);font-weight:600}
:focus-visible{outline:3px solid var(--accent);outline-offset:2px}
.fault{color:var(--fail);font-weight:600}
</style>
</head>
<body>
<main>
<h1>${words.heading}</h1>
<p>${words.about}</p>
${fault === undefined ? "" : `<p class="fault" role="alert">${fault}</p>`}
<form method="post" action="/join">
<label for="code">${words.code}</label>
<input id="code" name="code" inputmode="numeric" autocomplete="one-time-code" maxlength="7" required autofocus>
<button>${words.join}</button>
</form>
</main>
</body>
</html>
`;
}

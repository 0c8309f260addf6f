import type { Notices } from "./notices";
import type { PageWords } from "./words";

/**
 * Lets the page work without its server from the next visit on. A newer version waits until the user
 * takes it or the last tab closes, so that no page is changed under anybody's hands.
 *
 * @param beforeChange - Writes what is not written yet
 */
export function workOffline(notices: Notices, words: PageWords, beforeChange: () => Promise<void>): void {
  // A browser that does not trust the address (a phone with our own certificate) has none: online only.
  if (!("serviceWorker" in navigator)) return;
  const workers = navigator.serviceWorker;
  let taking = false;
  workers.addEventListener("controllerchange", () => {
    if (taking) location.reload();
  });
  const offer = (waiting: ServiceWorker) =>
    notices.show("version", {
      text: words.newer,
      stays: true,
      action: {
        label: words.useNewer,
        run: () => {
          taking = true;
          void beforeChange().then(() => waiting.postMessage("use"));
        },
      },
    });
  workers
    .register("service-worker.js", { updateViaCache: "none" })
    .then((registration) => {
      if (registration.waiting && workers.controller) offer(registration.waiting);
      registration.addEventListener("updatefound", () => {
        const coming = registration.installing;
        coming?.addEventListener("statechange", () => {
          if (coming.state === "installed" && workers.controller) offer(coming);
        });
      });
    })
    .catch(() => undefined);
}

/**
 * Keeps every file of the page on the device, and answers from there. `npm run package` puts the list of the files, as
 * `keptFiles`, before this script: with another file there is another list, and a browser sees that the page is new.
 */
import { clientsClaim } from "workbox-core";
import { addPlugins, cleanupOutdatedCaches, precacheAndRoute } from "workbox-precaching";
import type { PrecacheEntry } from "workbox-precaching/_types";

declare const keptFiles: PrecacheEntry[];

addPlugins([
  {
    // What the page has just fetched is asked for, not fetched again. It cannot be an old file: the list has check sums.
    requestWillFetch: ({ request }) => Promise.resolve(new Request(request, { cache: "no-cache" })),
  },
]);
// The page's address may end with a choice (?empty=null): it is the same page.
precacheAndRoute(keptFiles, { ignoreURLParametersMatching: [/./] });
cleanupOutdatedCaches();
// The page of the first visit too: it may be offline before it is opened again. A newer version still waits until no
// page of the one before is open, since nothing here calls skipWaiting.
clientsClaim();

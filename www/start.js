// Starts the computing module, then the service worker that keeps the page for use without a
// network. It is a file of its own because the page allows no inline script.

// Milliseconds after the start in which a first visit needs the network for itself.
const REST = 4000;

// The folders of the modules that a first visit does not need, each named by what is in it: no other release of this
// page has its files there. The build (examples/assets.rs) replaces the next line.
const LATER = { shelf: "shelf", scan: "scan", day: "day" };

// The promise of each of them, which is fetched when it is first wanted, once, and how often that was tried.
const coming = {};
const tries = {};
// How the page's own module is told that the shelf has come, or that it has not.
let takeShelf = () => {};
// What it does for the later modules.
let host = {};

const byId = (id) => document.getElementById(id);

document.addEventListener("click", openOnPress);
await startModule();
addEventListener("hashchange", openRoom);
openRoom();
openWhatGoesOn();
await keepForOffline();

async function startModule() {
  const boot = byId("boot");
  try {
    window.meniscus = { more };
    const { default: init, calculate, take_shelf, ask, write_down } = await import("./meniscus.js");
    takeShelf = take_shelf;
    host = { ask, write_down, more };
    await init();
    window.meniscus = Object.freeze({ calculate, more });
    boot.hidden = true;
  } catch (error) {
    console.error(error);
    boot.textContent =
      "The part of this page that computes did not start. Load the page again; " +
      "if this line comes back, use a newer browser or one that allows WebAssembly. " +
      "What you had entered before is still stored.";
    boot.hidden = false;
  }
}

function more() {
  if (!coming.shelf) {
    // The page is told; whoever else asked gets the promise itself.
    later("shelf").then(
      (module) => {
        takeShelf(module);
      },
      () => takeShelf(),
    );
  }
  return coming.shelf;
}

function later(name) {
  coming[name] ??= load(name).catch((error) => {
    delete coming[name];
    throw error;
  });
  return coming[name];
}

async function load(name) {
  // Some browsers remember that a fetch failed: another try has another address.
  tries[name] = (tries[name] ?? 0) + 1;
  const module = await import(`./${LATER[name]}/${name}.js${tries[name] === 1 ? "" : `?${tries[name]}`}`);
  await module.default();
  return module;
}

// A button opens what it stands for into the place that it controls.
function openOnPress({ target }) {
  const button = target.closest("button[data-later]");
  if (button) open(button);
}

// A room that a later module fills does the same whenever it is shown.
function openRoom() {
  const room = document.querySelector("section[data-later]:not([hidden])");
  if (room) open(room);
}

// A developing that is under way goes on in whichever room the page is opened.
function openWhatGoesOn() {
  try {
    if (localStorage.getItem("meniscus/form/run")) open(byId("running"));
  } catch {
    // Without a store nothing was kept of it.
  }
}

// The module is told where its other files are, and what the page does for it.
async function open(by) {
  const name = by.dataset.later;
  const failed = byId(`${name}-failed`);
  failed.hidden = true;
  try {
    const module = await later(name);
    const place = byId(by.getAttribute("aria-controls") ?? by.dataset.place);
    module.open(place, by, new URL(`${LATER[name]}/`, import.meta.url).href, host);
  } catch (error) {
    console.error(error);
    failed.hidden = false;
  }
}

async function keepForOffline() {
  const controlled = navigator.serviceWorker?.controller;
  navigator.serviceWorker?.addEventListener("controllerchange", () => {
    if (controlled) byId("update").hidden = false;
  });
  const served = location.protocol === "https:" || location.protocol === "http:";
  if (!served || !window.isSecureContext || !("serviceWorker" in navigator)) return;
  try {
    const worker = new URL("sw.js", import.meta.url);
    const registration = await navigator.serviceWorker.register(worker, { updateViaCache: "none" });
    offerUpdates(registration);
    // What the first visit does not need is kept once it rests.
    const active = (await navigator.serviceWorker.ready).active;
    setTimeout(() => active.postMessage("keep the rest"), REST);
  } catch (error) {
    // Blocked storage, say: the page works as before, only not without a network.
    console.warn(error);
  }
}

function offerUpdates(registration) {
  const offer = () => {
    // Without an active worker, the waiting one is the first, and nothing is replaced.
    if (registration.waiting && registration.active) byId("update").hidden = false;
  };
  offer();
  registration.addEventListener("updatefound", () => {
    registration.installing.addEventListener("statechange", offer);
  });
  byId("update-now").addEventListener("click", () => {
    const next = registration.waiting;
    // Another tab may have let it take over already: then only this page is old.
    if (!next) return location.reload();
    next.addEventListener("statechange", () => {
      if (next.state === "activated") location.reload();
    });
    next.postMessage("take over");
  });
}

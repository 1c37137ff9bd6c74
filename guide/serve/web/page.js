// The frame around the terminal: a font that is there first, one size that fits 80 x 24, touch,
// a link that comes back, and a sentence wherever the screens are not.
"use strict";

const COLUMNS = 80, ROWS = 24, SMALLEST = 11, LARGEST = 30;
const LOST = "lost", REFUSED = "refused", TAKEN = 4001, FELL = 4002;
const STEADY = 5000, WAIT = 2000;
const place = document.getElementById("screens");
const coarse = matchMedia("(pointer: coarse)").matches;
let begun = 0;

function say(when) {
  document.body.dataset.say = when;
  for (const each of document.querySelectorAll("#said p")) {
    each.style.display = each.dataset.when === String(when) ? "block" : "none";
  }
}

// A page that the server let go of stays; one whose link broke asks until it is answered.
function gone(code) {
  if (code === FELL && Date.now() - begun > STEADY) return location.reload();
  if (code > 4000 && code < 5000) return say(code);
  say(LOST);
  again();
}

async function again() {
  try {
    const answer = await fetch("/", { cache: "no-store" });
    if (answer.ok) return location.reload();
    say(REFUSED);
  } catch {
    setTimeout(again, WAIT);
  }
}

function ready() {
  delete document.body.dataset.say;
  place.querySelector(".xterm-helper-textarea").focus();
}

class Watched extends WebSocket {
  constructor(url) {
    super(url);
    this.addEventListener("open", () => { begun = Date.now(); });
    this.addEventListener("message", ready, { once: true });
    this.addEventListener("close", (event) => gone(event.code));
  }
}

// How wide and how high a sign is, as a share of the size of the writing.
function sign() {
  const pen = document.createElement("canvas").getContext("2d");
  pen.font = "100px 'Roboto Mono'";
  const one = pen.measureText("W");
  const high = one.fontBoundingBoxAscent + one.fontBoundingBoxDescent;
  return { wide: one.width / 100, high: high / 100 };
}

// The largest writing at which the smallest size of the screens fits.
function fontSize() {
  const { wide, high } = sign(), box = place.getBoundingClientRect();
  const most = Math.min(box.width / (COLUMNS * wide), box.height / (ROWS * high));
  return Math.max(SMALLEST, Math.min(LARGEST, Math.floor(most * 2) / 2));
}

// The height of a line in CSS pixels.
function line() {
  return sign().high * Number(place.dataset.fontSize);
}

// A finger that moves turns the wheel by a line at a time, so that the page goes with it; one that stays where it is presses, as the browser does.
function touch() {
  let last = null;
  place.addEventListener("touchstart", (event) => { last = event.touches[0].clientY; }, { passive: true });
  place.addEventListener("touchmove", (event) => {
    event.preventDefault();
    const now = event.touches[0];
    const step = line();
    while (Math.abs(now.clientY - last) >= step) {
      const down = now.clientY < last ? 1 : -1;
      last -= down * step;
      place.querySelector(".xterm-screen").dispatchEvent(new WheelEvent("wheel", {
        deltaY: down, deltaMode: WheelEvent.DOM_DELTA_LINE, bubbles: true, cancelable: true,
        clientX: now.clientX, clientY: now.clientY,
      }));
    }
  }, { passive: false });
  place.addEventListener("contextmenu", (event) => event.preventDefault());
}

// A tablet's keyboard covers half the screens: it comes when it is asked for.
function keyboard() {
  const field = place.querySelector(".xterm-helper-textarea");
  if (coarse) field.inputMode = "none";
  document.getElementById("keys").addEventListener("click", () => {
    field.inputMode = field.inputMode === "none" ? "text" : "none";
    field.blur();
    field.focus();
  });
  const view = window.visualViewport;
  view?.addEventListener("resize", () => {
    document.body.style.height = `${view.height}px`;
    window.onresize();
  });
}

async function open() {
  await document.fonts.load("16px 'Roboto Mono'");
  place.dataset.sessionWebsocketUrl = `ws://${location.host}/socket`;
  place.dataset.fontSize = fontSize();
  window.WebSocket = Watched;
  const script = document.createElement("script");
  script.src = "/textual.js";
  script.addEventListener("load", () => { window.onload(); touch(); keyboard(); });
  document.head.append(script);
}

say("opening");
document.getElementById("here").addEventListener("click", () => location.reload());
screen.orientation?.addEventListener("change", () => location.reload());
window.addEventListener("load", open, { once: true });

"use strict";

/* SHA-256 (FIPS 180-4), for browsers give theirs to https alone. */
const ROUNDS = [];
const START = [];
(() => {
  const share = (root) => Math.floor((root % 1) * 2 ** 32) >>> 0;
  for (let n = 2; ROUNDS.length < 64; n++) {
    let isPrime = true;
    for (let d = 2; d * d <= n; d++) if (n % d === 0) isPrime = false;
    if (!isPrime) continue;
    if (START.length < 8) START.push(share(Math.sqrt(n)));
    ROUNDS.push(share(Math.cbrt(n)));
  }
})();

class Sha256 {
  constructor() { this.state = Uint32Array.from(START); this.words = new Uint32Array(64); this.rest = new Uint8Array(0); this.length = 0; }

  add(bytes) {
    this.length += bytes.length;
    let all = bytes;
    if (this.rest.length) { all = new Uint8Array(this.rest.length + bytes.length); all.set(this.rest); all.set(bytes, this.rest.length); }
    let at = 0;
    for (; at + 64 <= all.length; at += 64) this.block(all, at);
    this.rest = all.slice(at);
  }

  block(bytes, at) {
    const words = this.words, state = this.state;
    for (let i = 0; i < 16; i++, at += 4) words[i] = bytes[at] << 24 | bytes[at + 1] << 16 | bytes[at + 2] << 8 | bytes[at + 3];
    for (let i = 16; i < 64; i++) {
      const a = words[i - 15], b = words[i - 2];
      const first = (a >>> 7 | a << 25) ^ (a >>> 18 | a << 14) ^ a >>> 3;
      const second = (b >>> 17 | b << 15) ^ (b >>> 19 | b << 13) ^ b >>> 10;
      words[i] = words[i - 16] + first + words[i - 7] + second | 0;
    }
    let [a, b, c, d, e, f, g, h] = state;
    for (let i = 0; i < 64; i++) {
      const one = h + ((e >>> 6 | e << 26) ^ (e >>> 11 | e << 21) ^ (e >>> 25 | e << 7)) + (e & f ^ ~e & g) + ROUNDS[i] + words[i] | 0;
      const two = ((a >>> 2 | a << 30) ^ (a >>> 13 | a << 19) ^ (a >>> 22 | a << 10)) + (a & b ^ a & c ^ b & c) | 0;
      h = g; g = f; f = e; e = d + one | 0; d = c; c = b; b = a; a = one + two | 0;
    }
    [a, b, c, d, e, f, g, h].forEach((value, i) => { state[i] += value; });
  }

  hex() {
    const bits = this.length * 8, end = new Uint8Array((this.rest.length < 56 ? 64 : 128) - this.rest.length);
    end[0] = 0x80;
    new DataView(end.buffer).setUint32(end.length - 8, Math.floor(bits / 2 ** 32));
    new DataView(end.buffer).setUint32(end.length - 4, bits >>> 0);
    this.add(end);
    return [...this.state].map((word) => word.toString(16).padStart(8, "0")).join("");
  }
}

/* What goes over the network: every step may be tried again, for nothing is taken twice. */
const PIECE = 262144;
const AT_ONCE = 3;
const pause = (seconds) => new Promise((done) => setTimeout(done, seconds * 1000));

class Refused extends Error {
  constructor(told) { super(told.what || t("It was not taken.")); this.why = told.why || ""; }
}

function within(seconds) {
  const giving = new AbortController();
  setTimeout(() => giving.abort(), seconds * 1000);
  return giving.signal;
}

async function ask(path, options = {}) {
  for (let tries = 0; ; tries++) {
    let answer;
    try {
      answer = await fetch(path, { ...options, credentials: "same-origin", signal: within(90) });
    } catch {
      network(false);
      await pause(Math.min(8, 2 ** tries / 2));
      continue;
    }
    network(true);
    if (answer.ok) return answer.json();
    if (answer.status === 503) { await pause(1); continue; }
    throw new Refused(await answer.json().catch(() => ({ what: t("The page is over. Ask for a new code at the counter.") })));
  }
}

const tell = (path, told) => ask(path, { method: "POST", body: JSON.stringify(told) });

async function hashed(file) {
  const hash = new Sha256();
  for (let at = 0; at < file.size; at += 4 * PIECE) hash.add(new Uint8Array(await file.slice(at, at + 4 * PIECE).arrayBuffer()));
  return hash.hex();
}

async function sent(file, moved) {
  const sha256 = await hashed(file);
  let { received } = await ask(`files/${sha256}`);
  while (received < file.size) {
    moved(received / file.size);
    const piece = file.slice(received, received + PIECE);
    ({ received } = await ask(`files/${sha256}?at=${received}&size=${file.size}`, { method: "PUT", body: piece }));
  }
  moved(1);
  return sha256;
}

let running = 0;
const queue = [];
async function inTurn(work) {
  if (running >= AT_ONCE) await new Promise((go) => queue.push(go));
  running++;
  try { return await work(); } finally { running--; (queue.shift() || (() => {}))(); }
}

/* In the language of the page: the English sentence is the key of its twin in WORDS, and stands where there is none. */
const t = (said, facts = {}) => (WORDS[said] || said).replace(/\{(\w+)\}/g, (place, name) => facts[name] ?? place);
const doubted = (doubt) => t(WORDS[`doubt.${doubt.key}`] ? `doubt.${doubt.key}` : `It ${doubt.what}. ${doubt.do}`, doubt.facts);

/* What is shown. Text goes in as text, never as markup. */
const $ = (id) => document.getElementById(id);
function make(tag, keys = {}, ...inside) {
  const element = document.createElement(tag);
  for (const [key, value] of Object.entries(keys)) {
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else if (key in element && key !== "list") element[key] = value;
    else element.setAttribute(key, value);
  }
  element.append(...inside);
  return element;
}

function network(isThere) { $("network").hidden = isThere; }

let fading;
function say(text, isGood = false) {
  clearTimeout(fading);
  const message = $("message");
  message.textContent = text;
  message.className = isGood ? "good" : "";
  message.hidden = !text;
  if (isGood) fading = setTimeout(() => { message.hidden = true; }, 4000);
}

const refusal = (error) => [error.message, error.why].filter(Boolean).map((said) => t(said).replace(/[^.?!]$/, "$&.")).join(" ");
const complain = (error) => say(error instanceof Refused ? refusal(error) : t("This page made a fault: {fault}", { fault: error.message }));

let claim = null;
let several = true;
const cards = make("div", { id: "cards" });

function camera(label, chosen, keys = {}) {
  const input = make("input", { type: "file", accept: "image/*", multiple: Boolean(keys.multiple), "aria-label": label });
  if (!keys.multiple) input.setAttribute("capture", "environment");
  input.addEventListener("change", () => { const files = [...input.files]; input.value = ""; files.forEach(chosen); });
  return make("label", { className: keys.plain ? "take plain" : "take" }, make("span", {}, label), ...(keys.beside ? [make("small", {}, keys.beside)] : []), input);
}

function field(label, keys = {}) {
  const input = make("input", { autocomplete: "off", ...keys });
  return [make("label", { className: "field" }, label, input), input];
}

/* One picture: sent, judged, kept or taken again. */
async function take(file, shot, instead = "") {
  const number = claim.number, address = URL.createObjectURL(file);
  const said = make("p", {}, t("Waiting to be sent…")), bar = make("progress", { max: 1, value: 0 }), buttons = make("div", { className: "pair" });
  const card = make("section", { className: "shot" }, make("img", { src: address, alt: "" }), make("p", {}, make("strong", {}, shot || t("Picture"))), said, bar, buttons);
  cards.prepend(card);
  const leave = () => { card.remove(); URL.revokeObjectURL(address); };
  const again = () => camera(t("Take again"), (next) => { leave(); take(next, shot, sha256); });
  let sha256 = "";
  try {
    const answer = await inTurn(async () => {
      said.textContent = t("Sending…");
      sha256 = await sent(file, (share) => { bar.value = share; });
      said.textContent = t("Looking at it…");
      for (let tries = 0; ; tries++) {
        try { return await tell(`claims/${encodeURIComponent(number)}/pictures`, { sha256, shot, name: file.name, instead }); }
        catch (error) { if (tries > 1 || !error.message.includes("not come whole") && !error.message.includes("damaged on the way")) throw error; await sent(file, () => {}); }
      }
    });
    bar.remove();
    const bad = answer.doubts.length > 0;
    card.className = bad ? "shot bad" : "shot good";
    said.textContent = bad ? answer.doubts.map(doubted).join(" ") : answer.there ? t("It is on the claim already.") : t("It is on the claim.");
    if (bad) buttons.append(again(), make("button", { className: "plain", onclick: leave }, t("Keep it")));
    else buttons.append(make("button", { className: "plain", onclick: leave }, t("OK")));
    if (claim && claim.number === number) { claim = answer.claim; $("shots").replaceChildren(...shots()); }
  } catch (error) {
    bar.remove();
    card.className = "shot bad";
    said.textContent = error instanceof Refused ? refusal(error) : t("It could not be sent.");
    buttons.append(again(), make("button", { className: "plain", onclick: leave }, t("Leave it")));
  }
}

function shots() {
  const wanted = claim.shots.filter((shot) => !shot.there), there = claim.shots.filter((shot) => shot.there);
  return [
    make("h2", {}, wanted.length ? t("Still to be photographed") : claim.shots.length ? t("Every shot the maker asks for is there") : t("Pictures")),
    ...wanted.map((shot) => camera(shot.shot, (file) => take(file, shot.shot))),
    ...there.map((shot) => camera(shot.shot, (file) => take(file, shot.shot), { plain: true, beside: t("is there") })),
  ];
}

function others() {
  const [label, other] = field(t("Another picture: what does it show?"), { maxLength: 80, placeholder: t("leave empty if it is plain to see") });
  return [
    label,
    camera(t("Take it"), (file) => { take(file, other.value.trim()); other.value = ""; }, { plain: true }),
    camera(t("Several from the phone"), (file) => take(file, ""), { plain: true, multiple: true }),
  ];
}

function doing(title, action, fields, done) {
  return async (event) => {
    event.preventDefault();
    const button = event.submitter || event.target;
    button.disabled = true;
    try {
      const told = Object.fromEntries(Object.entries(fields).map(([key, input]) => [key, typeof input === "string" ? input : input.value.trim()]));
      const answer = await tell(`claims/${encodeURIComponent(claim.number)}/${action}`, told);
      claim = answer.claim;
      $(titled(title)).replaceWith(opened(title));
      say([done, ...answer.notes].join(" "), true);
    } catch (error) { complain(error); } finally { button.disabled = false; }
  };
}

const titled = (title) => title.replace(/\W/g, "-");
const section = (title, ...inside) => make("details", { id: titled(title) }, make("summary", {}, t(title)), ...inside);

function clock() {
  const [who, name] = field(t("Who works"), { value: remembered("who") || claim.who, maxLength: 60, oninput: () => remember("who", name.value) });
  const running = claim.clocks.map((each) => make("form", { onsubmit: doing("Clock", "stop", { technician: each.technician }, t("The time is on the claim.")) },
    make("p", {}, t("{technician}: {operation}, since {since}", each)), make("button", {}, t("Stop the clock"), make("small", {}, each.technician))));
  const known = make("datalist", { id: "operations" }, ...claim.operations.map((each) => make("option", { value: each.code }, each.name)));
  const [label, operation] = field(t("What is done"), { list: "operations", maxLength: 120, required: true });
  operation.setAttribute("list", "operations");
  return section("Clock", ...running, make("form", { onsubmit: doing("Clock", "start", { operation, technician: name }, t("The clock runs.")) }, who, label, known, make("button", {}, t("Start a clock"))));
}

function finding() {
  const names = make("datalist", { id: "findings" }, ...claim.findings.map((each) => make("option", { value: each })));
  const [a, what] = field(t("What was measured"), { maxLength: 80, required: true }), [b, value] = field(t("Reading"), { maxLength: 40, required: true, inputMode: "decimal" });
  const [c, unit] = field(t("Unit"), { maxLength: 20, placeholder: "psi" }), [d, low] = field(t("At least"), { maxLength: 20, inputMode: "decimal" }), [e, high] = field(t("At most"), { maxLength: 20, inputMode: "decimal" });
  what.setAttribute("list", "findings");
  return section("Finding", make("form", { onsubmit: doing("Finding", "finding", { what, value, unit, low, high }, t("Written down.")) }, a, names,
    make("div", { className: "pair" }, b, c), make("div", { className: "pair" }, d, e), make("button", {}, t("Write it down"))));
}

function note() {
  const [label, text] = field(t("Note"), { maxLength: 400, required: true });
  return section("Note", make("form", { onsubmit: doing("Note", "note", { text }, t("Written down.")) }, label, make("button", {}, t("Write it down"))));
}

const SHELF = "Shelf of a kept part";
function shelf() {
  return section(SHELF, ...claim.held.map((part) => {
    const [label, place] = field(`${part.code}: ${part.part}`, { value: part.shelf, maxLength: 40, required: true });
    return make("form", { onsubmit: doing(SHELF, "shelf", { code: part.code, shelf: place }, t("Written down.")) }, label, make("button", {}, t("It lies there now")));
  }));
}

function remembered(key) { try { return sessionStorage.getItem(key) || ""; } catch { return ""; } }
function remember(key, value) { try { sessionStorage.setItem(key, value); } catch { /* it is asked again */ } }

/* Drawn anew alone after a step in it, so that nothing typed elsewhere is lost. */
const WORK = { Clock: clock, Finding: finding, Note: note, [SHELF]: shelf };
function opened(title) { const drawn = WORK[title](); drawn.open = true; return drawn; }

function show(next) {
  claim = next;
  $("number").textContent = claim.number;
  $("unit").textContent = claim.unit;
  document.title = claim.number;
  const sections = [clock(), finding(), note(), ...(claim.held.length ? [shelf()] : [])];
  $("main").replaceChildren(cards, make("div", { id: "shots" }, ...shots()), ...others(), make("h2", {}, t("Work")), ...sections, ...leaving());
  scrollTo(0, 0);
}

function leaving() {
  const other = make("button", { className: "plain", onclick: () => begin().catch(complain) }, t("Another claim"));
  const end = make("button", { className: "plain", onclick: async () => {
    if (!confirm(t("End for every phone?"))) return;
    await tell("end", {}).catch(() => {});
    claim = null;
    $("number").textContent = t("Done");
    $("unit").textContent = "";
    $("main").replaceChildren(make("p", {}, t("The page is over. You can close it.")));
  } }, t("End"));
  return [make("h2", {}, t("Done?")), ...(several ? [other] : []), end];
}

function choose(claims) {
  claim = null;
  $("number").textContent = t("Which claim?");
  $("unit").textContent = "";
  const [label, code] = field(t("Number of the claim, or the code on a tag"), { maxLength: 40, required: true, autocapitalize: "characters" });
  const named = async (written) => { try { say(""); show(await tell("claim", { code: written })); } catch (error) { complain(error); } };
  const tag = async (file) => { try { say(t("Looking for the tag…")); const sha256 = await sent(file, () => {}); show(await tell("tag", { sha256 })); say(""); } catch (error) { complain(error); } };
  $("main").replaceChildren(cards,
    camera(t("Photograph a tag"), tag),
    make("form", { onsubmit: (event) => { event.preventDefault(); named(code.value.trim()); } }, label, make("button", {}, t("Open it"))),
    ...(claims.length ? [make("h2", {}, t("Worked on today"))] : []),
    ...claims.map((each) => make("button", { className: "plain", onclick: () => named(each.number) }, make("span", {}, each.number), make("small", {}, each.unit))),
    ...leaving().slice(-1));
}

async function begin() {
  const begun = await ask("join", { method: "POST" });
  several = !begun.claim;
  if (begun.claim) show(begun.claim); else choose(begun.claims);
}

begin().catch((error) => { $("main").replaceChildren(); complain(error); });

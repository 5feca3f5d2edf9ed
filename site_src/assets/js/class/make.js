"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.class = Ringfence.class || {};

/* The page "Make a lesson": stops are picked, here or while browsing (#add=KIND|OF|SAY), put in order, and kept in the address, in this browser and in a file. */
(function (lessons, ui) {
  const { el, button } = ui;
  const UNKEPT = "This browser keeps nothing: before you go on, copy the lesson's address or save it as a file.";
  let root, status, place, lesson, kept = true, picked = "", earlier = "";

  const fresh = () => ({ title: "My lesson", stops: [], faults: [] });
  const begun = () => (lessons.draft() ? lessons.read(lessons.draft()) : fresh());

  function open() {
    const said = new URLSearchParams(location.hash.slice(1)), ready = lessons.ready(said.get("lesson")), more = said.get("add");
    picked = "";
    lesson = ready ? { title: ready.title, stops: ready.stops.map(({ kind, of, say }) => ({ kind, of, say })), faults: [] } : said.has("stop") ? lessons.read(location.hash) : begun();
    earlier = (ready || said.has("stop")) && lessons.draft() !== lessons.write(lesson) ? lessons.draft() : "";
    if (more === null) return render(lesson.faults);
    const stop = lessons.stop(more), faults = lesson.faults;
    history.replaceState(null, "", `#${lessons.write(lesson)}`); // loaded again, nothing is added twice
    if (["say", "draw", "check", "guide", "ask"].includes(stop.kind)) picked = "Added. ";
    else return render([...faults, "That address adds nothing this version knows. Nothing was lost."]);
    return add(stop);
  }

  function keep() {
    const said = lessons.write(lesson);
    history.replaceState(null, "", `#${said}`);
    kept = lessons.keepDraft(lesson.stops.length ? said : "");
  }

  function change(told) {
    keep();
    render(kept ? [] : [UNKEPT]);
    status.textContent = told;
  }

  /* Back to where a stop was picked, and on with browsing; the lesson waits here. */
  const goOn = () => el("p", { class: "rf-actions" }, button({ class: "rf-button", onclick: () => history.back() }, "Back to where you were"), el("span", {}, `Stop ${lesson.stops.length} is added. Press “Add to a lesson” on the next thing you find.`));

  function anew() {
    lesson = fresh();
    change("A new lesson.");
    history.replaceState(null, "", location.pathname);
  }

  /* One lesson is kept in a browser; one that is opened by its address would take the place of another that was begun. */
  const another = () => el("p", { class: "rf-fine" }, `You had begun another lesson, “${lessons.read(earlier).title}”. `, el("a", { href: `#${earlier}` }, "Open that one"), ". This browser keeps one: once you change what is here, keep the other by its address or as a file.");

  const select = (name, options) => el("select", { name }, options.map(([value, words]) => el("option", { value }, words)));

  function add(stop) {
    const fault = !stop ? "That is no address of this site that can be a stop. Copy one from a record, a guide, a question or the check." : lesson.stops.length >= lessons.LONGEST.stops ? `A lesson has ${lessons.LONGEST.stops} stops at most.` : lessons.gone(stop);
    if (fault) {
      picked = "";
      return render([`${fault} Nothing was lost.`]);
    }
    lesson.stops.push(stop);
    return change(`Stop ${lesson.stops.length} is added.`);
  }

  function render(faults) {
    const title = el("input", { name: "title", maxlength: "100", value: lesson.title, oninput: () => { lesson.title = title.value.trim() || "A lesson"; keep(); links(); } });
    const say = el("textarea", { name: "say", rows: "2", maxlength: "600" });
    const paste = el("input", { name: "paste", type: "text", autocomplete: "off", placeholder: "…/check/#from=…" });
    const draw = el("input", { name: "draw", list: "rf-make-drawn", autocomplete: "off", placeholder: "Type XLR, TRS, lead …" }), drawable = lessons.drawable();
    const ask = select("ask", lessons.bank().map((one) => [one.id, `${one.level}: ${one.asks} ${(one.given || []).map(([, value]) => value).join(", ")}`.slice(0, 140)]));
    const guide = select("guide", lessons.guides());
    const adder = (words, stop) => button({ class: "rf-button rf-button--quiet", onclick: () => add(stop()) }, words);
    const named = () => (drawable.find(([id, name]) => name === draw.value.trim() || id === draw.value.trim()) || [draw.value.trim()])[0];
    place.replaceChildren(...[
      ...faults.map((fault) => el("p", { class: "rf-fault", role: "alert" }, fault)),
      earlier ? another() : null, picked ? goOn() : null, el("div", { class: "rf-form" }, lessons.field("Title", title)), list(),
      el("h2", {}, "Add a stop"),
      el("div", { class: "rf-form" }, lessons.field("Own words, on their own or before the next stop", say), adder("Add the words", () => ({ kind: "say", of: "", say: say.value.trim() })),
        lessons.field("A page of this site, by its address: a check, a record, a guide, a question", paste), adder("Add that page", () => lessons.pasted(paste.value.trim())),
        lessons.field("A drawing, by name", draw), el("datalist", { id: "rf-make-drawn" }, drawable.map(([, name]) => el("option", { value: name }))), adder("Add the drawing", () => ({ kind: "draw", of: named(), say: "" })),
        lessons.field("A question", ask), adder("Add the question", () => ({ kind: "ask", of: ask.value, say: "" })),
        lessons.field("A guide", guide), adder("Add the guide", () => ({ kind: "guide", of: guide.value, say: "" }))),
      el("h2", {}, "Take it with you"), el("div", { class: "rf-actions", id: "rf-make-links" }), files()].filter(Boolean));
    links();
  }

  /* The address holds the whole lesson: to the player, and to be copied. */
  function links() {
    const target = `${root}class/lesson/#${lessons.write(lesson)}`;
    document.getElementById("rf-make-links").replaceChildren(el("a", { class: "rf-button", href: target }, "Play it"), ui.copier("Copy its address", new URL(target, location.href).href, "The lesson's address"),
      button({ class: "rf-button rf-button--quiet", onclick: save }, "Save as a file"), button({ class: "rf-button rf-button--quiet", disabled: !lesson.stops.length, onclick: anew }, "Begin another"));
  }

  function files() {
    const file = el("input", { class: "rf-hidden", id: "rf-make-file", type: "file", accept: ".json,application/json", onchange: async () => { if (file.files.length) take(await file.files[0].text()); } });
    return el("p", {}, file, el("label", { class: "rf-button rf-button--quiet", for: "rf-make-file" }, "Open a file"));
  }

  function take(text) {
    const { lesson: found, fault } = lessons.fromFile(text);
    if (fault) return render([fault]);
    lesson = found;
    keep();
    return render(found.faults);
  }

  function save() {
    const url = URL.createObjectURL(new Blob([lessons.asFile(lesson)], { type: "application/json" }));
    el("a", { href: url, download: "lesson.json" }).click();
    URL.revokeObjectURL(url);
  }

  const connected = (given) => [given.slice(0, 3).map(([, value]) => value).join(" → "), ...given.slice(3).map(([name, value]) => `${name} ${value}`)].join(", ");
  const words = { say: () => "Own words", draw: ({ of }) => lessons.drawn(of).name, guide: ({ of }) => `Guide: ${lessons.guides().find(([name]) => name === of)[1]}`,
    check: ({ of }) => connected(lessons.connection(of).given), ask: ({ of }) => `Question: ${lessons.find(of).asks} ${lessons.said(lessons.find(of))}` };

  function list() {
    if (!lesson.stops.length) return el("p", {}, "No stops yet. Add the first below; a good lesson begins with a question.");
    const move = (from, to) => { lesson.stops.splice(to, 0, ...lesson.stops.splice(from, 1)); change(`Now stop ${to + 1}.`); };
    return el("ol", { class: "rf-class__stops" }, lesson.stops.map((stop, at) => {
      const name = words[stop.kind](stop), say = el("input", { value: stop.say, maxlength: "600", "aria-label": `Your words at stop ${at + 1}`, onchange: () => { stop.say = say.value.trim(); if (stop.kind === "say" && !stop.say) lesson.stops.splice(at, 1); change("Kept."); } });
      return el("li", {}, el("span", {}, name), say, el("span", { class: "rf-actions" },
        button({ class: "rf-button rf-button--quiet", disabled: at === 0, "aria-label": `Stop ${at + 1} up`, onclick: () => move(at, at - 1) }, "Up"),
        button({ class: "rf-button rf-button--quiet", disabled: at === lesson.stops.length - 1, "aria-label": `Stop ${at + 1} down`, onclick: () => move(at, at + 1) }, "Down"),
        button({ class: "rf-button rf-button--quiet", "aria-label": `Take stop ${at + 1} out`, onclick: () => { lesson.stops.splice(at, 1); change("Taken out."); } }, "Out")));
    }));
  }

  lessons.begin("rf-make", (page) => { ({ root, place, status } = page); open(); });
})(Ringfence.class, Ringfence.ui);

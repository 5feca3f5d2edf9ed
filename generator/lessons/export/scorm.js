"use strict";
/* One question after the other. Tells a SCORM 1.2 system the score and when it is done; without one it just asks. */
(function () {
  const place = document.getElementById("asked"),
    questions = window.questions;
  let at = 0,
    right = 0;

  /* The system's object, up the frames or in the window that opened this one; null where there is none. */
  function system() {
    for (let where = window, tries = 0; tries < 20; where = where.parent, tries += 1) {
      try {
        if (where.API) return where.API;
        if (where.parent === where) break;
      } catch {
        break;
      }
    }
    try {
      return (window.opener && window.opener.API) || null;
    } catch {
      return null;
    }
  }

  const api = system();
  const tell = (name, value) => api && api.LMSSetValue(name, String(value));
  if (api) api.LMSInitialize("");
  tell("cmi.core.lesson_status", "incomplete");
  let finished = false;
  const finish = () => {
    if (api && !finished) {
      finished = true;
      api.LMSCommit("");
      api.LMSFinish("");
    }
  };
  window.addEventListener("pagehide", finish);

  function el(tag, text, more) {
    const made = Object.assign(document.createElement(tag), more);
    if (text) made.textContent = text;
    return made;
  }

  function show() {
    if (at === questions.length) return end();
    const one = questions[at];
    place.replaceChildren(
      el("p", `${at + 1} of ${questions.length}`),
      el("h2", one.asks),
      ...(one.given || []).map(([name, value]) => el("p", `${name}: ${value}`)),
      ...(one.pictures || []).map((name) =>
        el("img", "", {
          src: `drawings/${name}.svg`,
          alt: (one.given || []).map((pair) => pair.join(": ")).join("; "),
        }),
      ),
      answers(one),
    );
  }

  function answers(one) {
    const made = el("div"),
      given = [];
    if (one.target) {
      const input = el("input", "", { inputMode: "decimal", ariaLabel: `Your number, in ${one.target[1]}` });
      const typed = () => Number(input.value.trim().replace(",", ".").replace("−", "-"));
      made.append(
        input,
        el("span", ` ${one.target[1]}`),
        el("button", "Answer", {
          onclick: () => {
            if (input.value.trim() && Number.isFinite(typed()))
              told(one, Math.abs(typed() - one.target[0]) <= one.target[2]);
          },
        }),
      );
      return made;
    }
    for (const [id, text] of one.choices) {
      made.append(
        el("button", text, {
          type: "button",
          onclick: (event) => {
            given.push(id);
            event.target.disabled = true;
            if (given.length === one.answer.length) told(one, given.join() === one.answer.join());
            else event.target.textContent = `${given.length}. ${text}`;
          },
        }),
      );
    }
    return made;
  }

  function told(one, good) {
    if (good) right += 1;
    at += 1;
    const words = one.target
      ? `${one.target[0]} ${one.target[1]}`
      : one.answer.map((id) => one.choices.find(([each]) => each === id)[1]).join(", then ");
    const next = el("button", at === questions.length ? "How it went" : "Next", {
      type: "button",
      onclick: show,
    });
    place.replaceChildren(
      el("h2", good ? "Right" : `Not quite. It is: ${words}`),
      el("p", one.because),
      el("p", one.note || ""),
      ...(one.shown || []).map((name) => el("img", "", { src: `drawings/${name}.svg`, alt: words })),
      next,
    );
    next.focus();
  }

  function end() {
    const score = questions.length ? Math.round((100 * right) / questions.length) : 100;
    tell("cmi.core.score.min", 0);
    tell("cmi.core.score.max", 100);
    tell("cmi.core.score.raw", score);
    tell("cmi.core.lesson_status", "completed"); // with a mastery score the system itself says passed or failed
    finish();
    place.replaceChildren(el("h2", `${right} of ${questions.length} right`));
  }

  show();
})();

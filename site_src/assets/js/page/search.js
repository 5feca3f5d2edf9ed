/* The search of every page, in the frame the theme keeps for one: our own index in people's words (assets/js/seek/) comes with the first touch of
   the field; who does not search does not load it. */

import { script } from "./script.js";

function start() {
  const own = document.currentScript.src,
    SHOWN = 20;
  const field = document.querySelector(".md-search__input"),
    open = document.getElementById("__search");
  const list = document.querySelector(".md-search-result__list"),
    meta = document.querySelector(".md-search-result__meta");
  const KINDS = {
    connectors: "Plug or socket",
    assignments: "Pinout",
    ports: "Device",
    leads: "Lead",
    guides: "Guide",
  };
  document.documentElement.classList.replace("no-js", "js");
  if (!field || !list || !meta) return;
  let asked = null;

  const top = new URL("../../", own),
    onDisc = location.protocol === "file:";
  const at = (address) => new URL(onDisc ? address.replace(/\/(?=#|$)/, "/index.html") : address, top).href;
  field.addEventListener("focus", () => {
    open.checked = true;
    load();
  });
  field.addEventListener("input", load);
  field.form?.addEventListener("submit", (event) => event.preventDefault());
  field.form?.addEventListener("reset", () => setTimeout(show));
  open.addEventListener("change", () => {
    if (open.checked) field.focus();
  });
  const search = field.closest(".md-search");
  search.addEventListener("focusout", ({ relatedTarget }) => {
    if (relatedTarget && !search.contains(relatedTarget)) open.checked = false;
  }); // whoever tabs on sees the page
  document.querySelector(".md-search").addEventListener("keydown", walk);
  document.addEventListener("pointerdown", (event) => {
    if (open.checked && !event.target.closest(".md-search, [for=__search]")) open.checked = false;
  });
  document.addEventListener("keydown", (event) => {
    const typing = document.activeElement.matches("input, textarea, select");
    if (
      !typing &&
      !event.ctrlKey &&
      !event.metaKey &&
      !event.altKey &&
      (event.key === "/" || event.key === "s")
    ) {
      event.preventDefault();
      field.focus();
    }
  });

  function load() {
    if (Ringfence.seek && Ringfence.sought) return show();
    meta.textContent = "One moment";
    asked = asked || script(new URL("seek.js", own).href);
    return asked.then((loaded) => {
      asked = loaded ? asked : null;
      if (loaded) show();
      else meta.textContent = "The search did not load. Try again.";
    });
  }

  function show() {
    const typed = field.value.trim(),
      found = typed ? Ringfence.seek.find(typed).slice(0, SHOWN) : [];
    meta.textContent = !typed
      ? "Type to start searching"
      : found.length
        ? `${found.length === SHOWN ? "The first " : ""}${found.length} found`
        : "Nothing here is called that";
    list.replaceChildren(...(typed && !found.length ? [nothing()] : found.map(item)));
  }

  const made = (tag, how, ...inside) => {
    const one = Object.assign(document.createElement(tag), how);
    one.append(...inside.filter(Boolean));
    return one;
  };

  function item({ id, also }, place) {
    const [, title, , , , contacts] = Ringfence.seek.entry(id),
      [kind] = id.split("/");
    const told = [
      made("h1", {}, title),
      contacts && place < 3 ? made("p", { className: place ? "" : "rf-found__pinout" }, contacts) : null,
      made("p", { className: "rf-found__kind" }, `${KINDS[kind] || "Tool"}${also ? ` · also: ${also}` : ""}`),
    ];
    return made(
      "li",
      { className: "md-search-result__item" },
      made(
        "a",
        {
          href: at(id),
          className: "md-search-result__link",
          onclick: () => {
            open.checked = false;
          },
        },
        made("article", { className: "md-search-result__article md-typeset" }, ...told),
      ),
    );
  }

  const nothing = () =>
    made(
      "li",
      { className: "md-search-result__item rf-found__none" },
      made(
        "article",
        { className: "md-search-result__article md-typeset" },
        made(
          "p",
          {},
          "Brands are not kept here: say what kind of thing it is, or find it by what it looks like.",
        ),
        made("p", {}, made("a", { href: at("recognise/"), className: "rf-button" }, "What is this plug?")),
      ),
    );

  /* Arrows go through what was found, Enter takes the first, Escape leaves. */
  function walk(event) {
    const links = [...list.querySelectorAll("a")],
      at = links.indexOf(document.activeElement);
    const to = { ArrowDown: Math.min(at + 1, links.length - 1), ArrowUp: at - 1 }[event.key];
    if (event.key === "Escape") {
      open.checked = false;
      field.blur();
    } else if (event.key === "Enter" && at < 0 && links.length) links[0].click();
    if (to === undefined || !links.length) return;
    event.preventDefault();
    (to < 0 ? field : links[to]).focus();
  }
}

start();

"use strict";

/* The theme's search, its index and its worker come with the first touch of the search field: who does not search does not load them. */
(function () {
  const { search } = document.currentScript.dataset;
  const field = document.querySelector(".md-search__input"), open = document.getElementById("__search");
  document.documentElement.classList.replace("no-js", "js");
  if (!field || !search) return;
  if (location.protocol === "file:") { // a page on a disc may start no worker: there is nothing to search with
    document.querySelectorAll(".md-search, .md-header [for=__search]").forEach((one) => one.remove());
    return;
  }

  const script = new URL(search, location.href).href;
  const touched = () => { load(); field.removeEventListener("focus", touched); };
  field.addEventListener("focus", touched);
  field.addEventListener("input", () => field.dispatchEvent(new Event("keyup"))); // the theme only hears keys, not what is pasted, dictated or swiped
  open.addEventListener("change", () => { if (open.checked) field.focus(); });

  function load() {
    const made = document.createElement("script");
    made.src = script;
    made.addEventListener("load", () => { if (document.activeElement === field) { field.blur(); field.focus(); } });
    document.head.append(made);
  }
})();

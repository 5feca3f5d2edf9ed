/* The connectors that are left: all as pictures, a few with what tells each from the others. */

import { el, own } from "../ui/dom.js";
import { side, smallFace } from "../ui/side.js";
import { capital, count } from "../ui/words.js";

const TOLD = 8; // so many are told apart in words
const TWINS = 3; // so many also name what they are taken for

/* `plugs` are {id, name, recognise, said, alike}; `all` every plug by id; `root` leads to the site's root. */
export function candidates(plugs, all, root) {
  const told = plugs.length <= TOLD;
  const apart = told && plugs.length > 1 ? differing(plugs) : [];
  return el(
    "ul",
    { class: `rf-plugs${told ? " rf-plugs--told" : ""}` },
    plugs.map((plug) =>
      el(
        "li",
        { class: "rf-plug", "data-id": plug.id },
        el(
          "a",
          { class: "rf-plug__link", href: to(root, plug.id) },
          el(
            "span",
            { class: "rf-plug__drawn", "aria-hidden": "true" },
            plug.halves.map((half) =>
              el(
                "span",
                { class: "rf-plug__half" },
                plug.faces.includes(half) ? smallFace({ connector: plug.id, half }) : null,
                side({ connector: plug.id, half }, { scale: 0.5 }),
              ),
            ),
          ),
          el("span", { class: "rf-plug__name" }, plug.name),
        ),
        told
          ? el(
              "div",
              { class: "rf-plug__told" },
              el("p", {}, plug.recognise),
              apart.length
                ? el(
                    "p",
                    { class: "rf-plug__facts" },
                    apart
                      .map((key) => fact(key, own(plug.said, key)))
                      .filter(Boolean)
                      .map((words) => el("mark", {}, words)),
                  )
                : null,
              plugs.length <= TWINS ? twins(plug, all, root) : null,
            )
          : null,
      ),
    ),
  );
}

const to = (root, id) => `${root}connectors/${encodeURIComponent(id)}/`;

/* "19 mm across"; what is no number also says what it is about: "held by: a thread". */
const fact = (key, words) =>
  words && own(Ringfence.plugs.words, key) ? `${Ringfence.plugs.labels[key].toLowerCase()}: ${words}` : words;

/* The facts in which these plugs are not all the same. */
function differing(plugs) {
  const keys = [...new Set(plugs.flatMap(({ said }) => Object.keys(said)))].filter((key) => key !== "rings"); // contacts tell as much
  return keys.filter((key) => new Set(plugs.map(({ said }) => said[key])).size > 1);
}

function twins({ alike }, all, root) {
  const ids = Object.keys(alike);
  if (!ids.length) return null;
  return el(
    "details",
    { class: "rf-more" },
    el("summary", {}, `Easily taken for ${count(ids.length, "other", "others")}`),
    el(
      "ul",
      {},
      ids.map((id) =>
        el(
          "li",
          {},
          el("a", { href: to(root, id) }, all[id].name),
          el(
            "span",
            {},
            alike[id].length ? `${capital(alike[id].join(", "))}. ` : "The same in all these questions. ",
            all[id].recognise,
          ),
        ),
      ),
    ),
  );
}

/* Plugs one answer away from those left, each with the question that ruled it out. */
export function nearly(near, root) {
  if (!near.length) return null;
  return el(
    "details",
    { class: "rf-more" },
    el("summary", {}, `${count(near.length, "connector fails", "connectors fail")} one answer only`),
    el(
      "ul",
      {},
      near.map(({ plug, question }) =>
        el(
          "li",
          {},
          el("a", { href: to(root, plug.id) }, plug.name),
          el("span", {}, `Ruled out by: ${question.short.toLowerCase()}`),
        ),
      ),
    ),
  );
}

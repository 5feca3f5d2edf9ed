/* The board: contacts as buttons in two columns, the drawing between them, and the same joins as a list and as a table of meter readings. */

import { button, el } from "../ui/dom.js";
import { capital, listed } from "../ui/words.js";
import { drawing } from "./drawing.js";
import { layout as layoutOf } from "./layout.js";
import { named as namedOf } from "./lead.js";
import { stock } from "./stock.js";
import { contacts as contactsOf, ENDS, endName, joinOf, said } from "./wiring.js";

/* `on`: tap(node), cut(node), drop(), unjoin(join), choose(index), dropEnd(). */
export function board(wiring, picked, on) {
  const layout = layoutOf(wiring),
    named = namedOf(wiring, stock());
  const names = new Map(named.map(({ id, nodes }) => [nodes, id]));
  const net = picked && (joinOf(wiring, picked) || [picked]);
  return el(
    "div",
    { class: "rf-board", style: null },
    column("left"),
    el("div", { class: "rf-board__middle" }, drawing(wiring, layout, names, picked, on.unjoin)),
    column("right"),
  );

  function column(side) {
    return el(
      "div",
      { class: `rf-board__side rf-board__side--${side}` },
      layout.blocks
        .filter((block) => block.side === side)
        .map((block) =>
          el(
            "div",
            {
              class: "rf-board__block",
              role: "group",
              "aria-label": block.end === null ? "Points inside" : endName(wiring, block.end),
            },
            block.end === null ? el("p", { class: "rf-board__inside" }, "Inside") : header(block.end),
            block.nodes.map(contact),
          ),
        ),
    );
  }

  function header(index) {
    return button(
      {
        class: "rf-board__end",
        "data-key": `end ${index}`,
        "aria-label": `End ${ENDS[index].toUpperCase()}: ${endName(wiring, index)}. Change it`,
        onclick: () => on.choose(index),
      },
      endName(wiring, index),
    );
  }

  function contact(node) {
    const others = (joinOf(wiring, node) || []).filter((other) => other !== node);
    const joined = others.length ? `, joined to ${listed(others.map((other) => said(wiring, other)))}` : "";
    const held =
      picked === node ? " rf-contact--picked" : net && net.includes(node) ? " rf-contact--held" : "";
    return button(
      {
        class: `rf-contact${others.length ? " rf-contact--joined" : ""}${held}`,
        "data-key": `contact ${node}`,
        "aria-pressed": String(picked === node),
        "aria-label": `${said(wiring, node)}${joined}`,
        onclick: () => on.tap(node),
      },
      node.split(".").pop(),
    );
  }
}

/* What the contact in hand waits for. */
export function hint(wiring, picked, on) {
  if (!picked) {
    return el(
      "p",
      { class: "rf-bench__hint" },
      wiring.joins.length || wiring.parts.length
        ? "Tap two contacts to join them, or to part them again. Tap a wire to take it out."
        : "Tap a contact, then the contact it is joined to.",
    );
  }
  const canCut = wiring.cable && picked.includes(".") && !joinOf(wiring, picked);
  return el(
    "div",
    { class: "rf-bench__hint rf-bench__hint--picked" },
    el("p", {}, `${capital(said(wiring, picked))}: now the contact it is joined to.`),
    canCut
      ? button(
          { class: "rf-button rf-button--quiet", "data-key": "cut", onclick: () => on.cut(picked) },
          "Cut off at the far end",
        )
      : null,
    button({ class: "rf-button rf-button--quiet", "data-key": "drop", onclick: on.drop }, "Put it down"),
  );
}

/* The conductors as a list, each with its own way out: for keyboards, and for fingers that miss a line. */
export function conductors(wiring, on) {
  const named = namedOf(wiring, stock());
  if (!named.length) return null;
  return el(
    "ul",
    { class: "rf-things", "aria-label": "Conductors" },
    named.map(({ id, nodes }) => {
      const words =
        nodes.length > 1
          ? nodes.map((node) => said(wiring, node)).join(" – ")
          : `${said(wiring, nodes[0])}, cut off at the far end`;
      return el(
        "li",
        {},
        el("span", { class: "rf-things__name" }, capital(id.replace(/-/g, " "))),
        el("span", { class: "rf-things__more" }, words),
        button(
          {
            class: "rf-things__out",
            "data-key": `out ${nodes.join("_")}`,
            "aria-label": `Take out ${id}: ${words}`,
            onclick: () => on.unjoin(nodes),
          },
          "×",
        ),
      );
    }),
  );
}

/* Which contact beeps to which. A beep is a join; what follows from other beeps is marked with them. */
export function meter(wiring, on) {
  const contacts = contactsOf(wiring);
  const short = ({ node, contact }) =>
    el("span", { title: said(wiring, node) }, el("small", {}, node[0].toUpperCase()), ` ${contact}`);
  const [rows, columns] = [contacts.slice(0, -1), contacts.slice(1)];
  return el(
    "div",
    { class: "rf-meter", tabindex: "0", role: "region", "aria-label": "Meter readings" },
    el(
      "table",
      {},
      el(
        "thead",
        {},
        el(
          "tr",
          {},
          el("td", {}),
          columns.map((one) => el("th", { scope: "col" }, short(one))),
        ),
      ),
      el(
        "tbody",
        {},
        rows.map((row, i) =>
          el(
            "tr",
            {},
            el("th", { scope: "row" }, short(row)),
            columns.map((column, j) => el("td", {}, j < i ? null : cell(row, column))),
          ),
        ),
      ),
    ),
  );

  function cell(row, column) {
    const join = joinOf(wiring, row.node),
      beeps = Boolean(join && join.includes(column.node));
    return button(
      {
        class: "rf-meter__cell",
        "aria-pressed": String(beeps),
        "data-key": `meter ${row.node} ${column.node}`,
        "aria-label": `${said(wiring, row.node)} beeps to ${said(wiring, column.node)}`,
        onclick: () => on.beep(row.node, column.node),
      },
      beeps ? "●" : "",
    );
  }
}

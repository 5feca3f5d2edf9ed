/* Handing an answer on: its link, words to cite it by, a frame for another page, and a picture. */

import { lead, port } from "../ui/catalogue.js";
import { copier } from "../ui/copier.js";
import { button, el } from "../ui/dom.js";
import { later } from "../ui/later.js";
import { write } from "./address.js";
import { asked, names } from "./asked.js";
import { picture } from "./picture.js";
import { ends as endsOf, position, setting } from "./settings.js";

const FRAME = { width: 390, height: 560 }; // px

/* The absolute address of a page of this site: where the site is said to stand, else where it is read. */
function absolute(address, root) {
  const { site } = document.getElementById("rf-check").dataset;
  return new URL(address.slice(root.length), new URL(site || root, location.href)).href;
}

/* The button beside the verdict: the device's own sheet where there is one, else the link is copied. `says` goes along. */
export function shareNow(question, says, root, set = []) {
  if (mine(question).length) return ownLead(question, root);
  const link = absolute(`${root}check/${write({ ...question, set })}`, root),
    title = `${port(question.from).name} → ${port(question.into).name}`;
  if (!navigator.share) return copier("Share: copy the link", link, "Link to this answer");
  return button(
    {
      class: "rf-button rf-button--quiet",
      onclick: () => navigator.share({ title, text: says, url: link }).catch(() => null),
    },
    "Share",
  );
}

/* A picture for a message, and the link as a code on the screen: their scripts come with the first tap. */
export function handed(question, judged, root, set = []) {
  if (mine(question).length) return [];
  const link = absolute(`${root}check/${write({ ...question, set })}`, root),
    place = el("div", { class: "rf-code__place" });
  const withScripts = async (act) =>
    (await later("qr")) && (await later("message"))
      ? act()
      : place.replaceChildren("This could not be loaded. Try again with a network.");
  const shown = async () =>
    withScripts(() => {
      const code = Ringfence.message.code(link);
      place.replaceChildren(
        ...(place.childElementCount
          ? []
          : [
              code ||
                "There is no code for this answer: its address is known to this device alone, or too long. Copy the link instead.",
            ]),
      );
    });
  return [
    Ringfence.page.button("Picture for a message", (made) =>
      withScripts(() => Ringfence.message.send(question, judged, link)).catch(() =>
        made.replaceWith("No picture here: this browser does not let the page read its drawings."),
      ),
    ),
    Ringfence.page.button("QR code", shown),
    place,
  ];
}

/* A lead of one's own is known on this device only: its wiring is handed on instead. */
const mine = ({ through }) => (through || []).map(lead).filter((lead) => lead.mine);
const ownLead = (question, root) =>
  el(
    "p",
    { class: "rf-fine" },
    "This answer stays on this device, for the lead is yours. Hand on its wiring: ",
    mine(question).map(({ id, name }) =>
      el("a", { href: `${root}bench/${Ringfence.own.leadOf(id).wiring}` }, name),
    ),
  );

/* Title, verdict, permanent link, and the state of the data it was worked out from. */
export const citation = (question, verdict, link, stamp) =>
  `${names(question)}. Verdict: ${verdict}. Ringfence, ${link}. ${stamp}.`;

export const frame = (link, title) => {
  const quoted = title.replaceAll("&", "&amp;").replaceAll('"', "&quot;").replaceAll("<", "&lt;");
  return `<iframe src="${link.replace("/check/#", "/embed/check/#").replaceAll("&", "&amp;")}" title="${quoted}" width="${FRAME.width}" height="${FRAME.height}"></iframe>`;
};

/* `set` is where the switches of the answer stand, if that was asked for. `judged` is null where there is no live answer: then there is a link and nothing to cite. */
export function share(question, judged, root, set = []) {
  if (mine(question).length)
    return el(
      "div",
      { class: "rf-share" },
      el("a", { class: "rf-button rf-button--quiet", href: "#" }, "New check"),
    );
  const link = absolute(`${root}check/${write({ ...question, set })}`, root);
  const { stamp } = document.getElementById("rf-check").dataset;
  const copy = copier("Copy link to this answer", link, "Link to this answer");
  return el(
    "div",
    { class: "rf-share" },
    copy,
    el("a", { class: "rf-button rf-button--quiet", href: "#" }, "New check"),
    judged
      ? el(
          "details",
          { class: "rf-more rf-share__more" },
          el("summary", {}, "Embed, cite, save as a picture"),
          el(
            "dl",
            { class: "rf-take" },
            offered("Embed", frame(link, names(question)), "Copy the frame"),
            offered(
              "Cite",
              citation(question, ends(judged, question, set), link, stamp),
              "Copy the citation",
            ),
            el("dt", {}, "Picture"),
            el(
              "dd",
              {},
              el(
                "div",
                { class: "rf-actions" },
                Ringfence.page.saver("Save as PNG", "Save the answer as PNG", () =>
                  picture(question, judged, root, `${link} ${stamp}`),
                ),
              ),
            ),
            question.own || question.through.length > 1
              ? null
              : [
                  el("dt", {}, "Lesson"),
                  el(
                    "dd",
                    {},
                    el(
                      "a",
                      { class: "rf-button rf-button--quiet", href: stop(question, root, set) },
                      "Add to a lesson",
                    ),
                  ),
                ],
            el("dt", {}, "Drawings"),
            el("dd", {}, drawings(question, root)),
          ),
        )
      : null,
  );
}

/* The address that adds this answer to the lesson in the making; own numbers and chains are in no table and no stop. */
const stop = ({ from, through, into }, root, set) =>
  `${root}class/make/#add=${encodeURIComponent(`check|${[from, through[0] || "-", into, ...set.map((one) => one.join(":"))].join()}|`)}`;

/* The verdict, and beside it the one of the setting that is passed on. */
const ends = (judged, question, set) => `${settled(judged, question, set)}${judged.own || ""}`;

function settled(judged, question, set) {
  const number = set.length && judged.settings.length ? position(judged, question, set) : null;
  if (number === null)
    return judged.offer ? `${judged.verdict}. ${judged.offer.replace(/\.$/, "")}` : judged.verdict;
  return `${judged.verdict} over all settings, ${endsOf(judged, number)} with ${setting(judged.settings[number].supplies, judged, question)}`;
}

const offered = (name, text, words) => [
  el("dt", {}, name),
  el("dd", {}, el("code", { class: "rf-take__text" }, text), copier(words, text, words)),
];

const drawings = (question, root) =>
  el(
    "ul",
    { class: "rf-take__drawings" },
    asked(question).map(({ id, name, ends }) =>
      el(
        "li",
        {},
        el("span", {}, name),
        el(
          "a",
          {
            class: "rf-button rf-button--quiet",
            "aria-label": `SVG: ${name}`,
            href: `${root}draw/${ends ? "lead" : "port"}-${encodeURIComponent(id)}.svg`,
            download: true,
          },
          "SVG",
        ),
      ),
    ),
  );

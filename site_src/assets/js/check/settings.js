/* The settings of an answer: their names, which of them an address means, and all of them in a table. */

import { port } from "../ui/catalogue.js";
import { el, slug, verdict as verdictMark } from "../ui/dom.js";
import { rank } from "../ui/table.js";
import { capital, listed } from "../ui/words.js";

/* The switches of an answer: [{key, name, owner, states}]; `owner` is the device that has it, "" where the name says so itself. */
export function switches(judged, question) {
  const [first] = judged.settings,
    names = Ringfence.engine?.switchNames(judged),
    ports = [port(question.from), port(question.into)];
  return Object.keys(first ? first.supplies : {}).map((key) => {
    const port = ports.find(({ supplies }) => supplies.some(({ id }) => id === key)),
      own = port && port.supplies.find(({ id }) => id === key);
    return {
      key,
      name: names?.get(key) || (own ? own.name : key),
      owner: port ? port.name.split(",")[0] : "",
      states: [...new Set(judged.settings.map(({ supplies }) => supplies[key]))],
    };
  });
}

/* {phantom: "on"} as "phantom 48 V on", with each switch's own name. */
export function setting(supplies, judged, question) {
  const named = switches(judged, question).map(({ key, name }) => `${name} ${supplies[key]}`);
  return named.length ? listed(named) : "as it is";
}

/* The setting an answer begins with: the one that decides the verdict, never a kinder one. */
function first({ settings, verdict }) {
  const deciding = settings.findIndex((one) => one.verdict === verdict),
    ranks = settings.map((one) => rank(one.verdict));
  return deciding < 0 ? ranks.indexOf(Math.max(...ranks)) : deciding;
}

/* The number of the setting that `set`, as read from an address, asks for. What names no switch or no position of it is passed over. */
export function position(judged, question, set) {
  const start = judged.settings[first(judged)].supplies,
    asked = new Map([...set].reverse());
  const wanted = switches(judged, question).map(({ key, states }) => [
    key,
    states.find((state) => slug(state) === asked.get(slug(key))) || start[key],
  ]);
  return judged.settings.findIndex(({ supplies }) => wanted.every(([key, state]) => supplies[key] === state));
}

/* How one setting ends, in words: a danger that lasts only while plugging says so. */
export function ends(judged, number) {
  const { verdict } = judged.settings[number],
    settled = judged.moments && judged.moments[number] && judged.moments[number].settled;
  return verdict === "dangerous" && settled && settled !== "dangerous"
    ? `dangerous while plugging, ${settled} once plugged in`
    : verdict;
}

/* A setting as an address tells it. */
export const asSet = (supplies) => Object.entries(supplies).map((one) => one.map(slug));

/* One line per setting, and one for the moment of plugging. Nothing to say when there is only one case. */
export function settings(judged, question) {
  const rows = judged.settings.map(({ supplies, verdict }, number) => [
    capital(setting(supplies, judged, question)),
    verdict,
    ends(judged, number),
  ]);
  if (rank(judged.plugging) >= 0) rows.push(["While plugging, the worst moment", judged.plugging]);
  if (rows.length < 2) return null;
  return el(
    "section",
    { class: "rf-settings" },
    el("h3", {}, "Setting by setting"),
    el(
      "table",
      { class: "rf-table" },
      el(
        "tbody",
        {},
        rows.map(([name, verdict, ends = verdict]) =>
          el(
            "tr",
            {},
            el("th", { scope: "row" }, name),
            el(
              "td",
              {},
              verdictMark(verdict),
              ends === verdict
                ? null
                : el("span", { class: "rf-settings__ends" }, ends.slice(verdict.length + 1)),
            ),
          ),
        ),
      ),
    ),
  );
}

"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.check = Ringfence.check || {};

/* The settings of an answer: their names, which of them an address means, and all of them in a table. */
(function (check, ui) {
  const { el } = ui;

  /* The switches of an answer: [{key, name, owner, states}]; `owner` is the device that has it, "" where the name says so itself. */
  check.switches = function (judged, question) {
    const [first] = judged.settings, names = Ringfence.engine?.switchNames(judged), ports = [ui.port(question.from), ui.port(question.into)];
    return Object.keys(first ? first.supplies : {}).map((key) => {
      const port = ports.find(({ supplies }) => supplies.some(({ id }) => id === key)), own = port && port.supplies.find(({ id }) => id === key);
      return { key, name: names?.get(key) || (own ? own.name : key), owner: port ? port.name.split(",")[0] : "", states: [...new Set(judged.settings.map(({ supplies }) => supplies[key]))] };
    });
  };

  /* {phantom: "on"} as "phantom 48 V on", with each switch's own name. */
  check.setting = function (supplies, judged, question) {
    const named = check.switches(judged, question).map(({ key, name }) => `${name} ${supplies[key]}`);
    return named.length ? ui.listed(named) : "as it is";
  };

  /* The setting an answer begins with: the one that decides the verdict, never a kinder one. */
  function first({ settings, verdict }) {
    const deciding = settings.findIndex((one) => one.verdict === verdict), ranks = settings.map((one) => ui.rank(one.verdict));
    return deciding < 0 ? ranks.indexOf(Math.max(...ranks)) : deciding;
  }

  /* The number of the setting that `set`, as read from an address, asks for. What names no switch or no position of it is passed over. */
  check.position = function (judged, question, set) {
    const start = judged.settings[first(judged)].supplies, asked = new Map([...set].reverse());
    const wanted = check.switches(judged, question).map(({ key, states }) => [key, states.find((state) => ui.slug(state) === asked.get(ui.slug(key))) || start[key]]);
    return judged.settings.findIndex(({ supplies }) => wanted.every(([key, state]) => supplies[key] === state));
  };

  /* A setting as an address tells it. */
  check.asSet = (supplies) => Object.entries(supplies).map((one) => one.map(ui.slug));

  /* One line per setting, and one for the moment of plugging. Nothing to say when there is only one case. */
  check.settings = function (judged, question) {
    const rows = judged.settings.map(({ supplies, verdict }, number) => [ui.capital(check.setting(supplies, judged, question)), verdict, check.ends(judged, number)]);
    if (ui.rank(judged.plugging) >= 0) rows.push(["While plugging, the worst moment", judged.plugging]);
    if (rows.length < 2) return null;
    return el("section", { class: "rf-settings" },
      el("h3", {}, "Setting by setting"),
      el("table", { class: "rf-table" }, el("tbody", {}, rows.map(([name, verdict, ends = verdict]) =>
        el("tr", {}, el("th", { scope: "row" }, name), el("td", {}, ui.verdict(verdict), ends === verdict ? null : el("span", { class: "rf-settings__ends" }, ends.slice(verdict.length + 1))))))));
  };
})(Ringfence.check, Ringfence.ui);

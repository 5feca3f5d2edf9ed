"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What holds in each setting of the supplies. A published answer tells every finding once, where it is worst; what it was
   made from is held here, apart from the answer. */
(function (engine) {
  const made = new WeakMap();

  engine.hold = function (published, answer) {
    made.set(published, answer);
    published.findings.forEach((finding, i) => made.set(finding, answer.findings[i]));
    return published;
  };

  /* What an answer was made from, for another thread to hold it by. */
  engine.held = (published) => made.get(published);

  /* Does a circuit decide this finding of an answer? */
  engine.explains = (finding) => (made.get(finding) || finding).at !== null;

  /* What every switch of an answer is called, key -> name; undefined for an answer this engine did not give. */
  engine.switchNames = (published) => made.get(published)?.names;

  /* The findings of one setting of an answer, worst first: [{finding, always}]; `always` tells that every other setting has it too. */
  engine.inSetting = function (published, number) {
    const { settings, group, beside } = made.get(published);
    const told = (setting) => beside.filter((one) => agree(one.setting, setting)).map(({ finding }) => finding);
    const found = (setting) => engine.gathered([...group.flatMap((one) => here(one, setting)), ...told(setting)]);
    const each = settings.map(([setting]) => found(setting)), keys = each.map((list) => new Set(list.map(engine.sameness)));
    const always = (finding) => keys.every((one) => one.has(engine.sameness(finding)));
    return each[number].map((finding) => ({ finding, always: always(finding) }));
  };

  /* Do two settings have no switch that stands differently? */
  const agree = (one, other) => [...one].every(([key, state]) => !other.has(key) || other.get(key) === state);

  /* What one way of plugging finds when the switches stand so; a way may have fewer switches than another. */
  const here = ({ settings, every }, setting) => every.filter((finding) =>
    finding.setting === null || engine.within(settings[finding.setting][0], setting));
})(Ringfence.engine);

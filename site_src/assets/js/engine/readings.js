"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What an instrument would show: the numbers a verdict rests on, before any rule has looked at them. The twin of readings.py. */
(function (engine) {
  /* One number. `state` is settled, plugging or signal; `setting` the number of the supply setting, null where supplies do not matter;
     `limit` the part's own rating, `evidence` how that is known; `words` fill the sentences, `flags` are what a rule's `only` looks at. */
  engine.reading = (quantity, subject, where, value, unit, state, { setting = null, limit = null, evidence = null, words = {}, flags = {} }) =>
    ({ quantity, subject, where, value, unit, state, setting, limit, evidence, words, flags });

  /* A device's or lead's name up to its first comma. */
  engine.short = (record) => record.name.split(",")[0];

  /* The words the catalogue has for a part, from a limit on it; null when there are none. */
  engine.partName = function (record, part) {
    const limit = record.network.limits.find((one) => one.part === part);
    return limit ? engine.limitName(record, limit) : null;
  };

  /* A limit's `where`, with its channel where the device has several alike. */
  engine.limitName = function (record, limit) {
    const alike = record.network.limits.filter((other) => other.where === limit.where && other.quantity === limit.quantity);
    return alike.length > 1 && limit.id.includes(".") ? `${limit.where} (${limit.id.split(".")[0]})` : limit.where;
  };
})(Ringfence.engine);

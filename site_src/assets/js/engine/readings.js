"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What an instrument would show: the numbers a verdict rests on, before any rule has looked at them. The twin of readings.py. */
(function (engine) {
  const MAIN = "main"; // the channel of a device that has one only
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

  /* A limit's `where`, with its channel, or which conductor of a cable, where there are several alike. */
  engine.limitName = function (record, limit) {
    const alike = record.network.limits.filter((other) => other.where === limit.where && other.quantity === limit.quantity);
    const [channel, ...rest] = limit.id.split("."), which = channel === limit.where ? rest.join(".") : channel;
    return alike.length > 1 && rest.length && which !== MAIN ? `${limit.where} (${which})` : limit.where;
  };

  /* What a channel is called in a sentence: "signal" where a device has one only. */
  engine.channelWord = (channel) => (channel === MAIN ? "signal" : channel);
  engine.outputWord = ({ channel }) => (channel === MAIN ? "output" : `${channel} output`);
})(Ringfence.engine);

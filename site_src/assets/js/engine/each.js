/* What holds in each setting of the supplies. A published answer tells every finding once, where it is worst. */

import { held } from "./held.js";
import { gathered, sameness } from "./judge.js";
import { within } from "./words.js";

/* The findings of one setting of an answer, worst first: [{finding, always}]; `always` tells that every other setting has it too. */
export function inSetting(published, number) {
  const { settings, group, beside } = held(published);
  const told = (setting) => beside.filter((one) => agree(one.setting, setting)).map(({ finding }) => finding);
  const found = (setting) => gathered([...group.flatMap((one) => here(one, setting)), ...told(setting)]);
  const each = settings.map(([setting]) => found(setting)),
    keys = each.map((list) => new Set(list.map(sameness)));
  const always = (finding) => keys.every((one) => one.has(sameness(finding)));
  return each[number].map((finding) => ({ finding, always: always(finding) }));
}

/* Do two settings have no switch that stands differently? */
const agree = (one, other) => [...one].every(([key, state]) => !other.has(key) || other.get(key) === state);

/* What one way of plugging finds when the switches stand so; a way may have fewer switches than another. */
const here = ({ settings, every }, setting) =>
  every.filter((finding) => finding.setting === null || within(settings[finding.setting][0], setting));

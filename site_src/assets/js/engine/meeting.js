/* What a person would see at a joint at one moment of plugging: the twin of meeting.py. */

import { contacts } from "./mate.js";

/* Which contacts touch that do not belong together, or which do not touch yet, for plugging state `number`. */
export function meeting({ interfaces, touches, plugging, pluggingAt }, number) {
  const k = pluggingAt[number],
    { mating, plugLast } = interfaces[k];
  const now = touches.filter(([at], i) => at === k && plugging[number][i]).map(([, touch]) => touch);
  if (!now.length) return "one half still out";
  const strange = now.filter((touch) => !mating.home.some((home) => home.has(touch))).map(contacts);
  if (strange.length) return crossed(strange.map(([a, b]) => (plugLast ? [b, a] : [a, b])));
  const late = mating.home
    .map((home) =>
      [...home]
        .filter((touch) => !now.includes(touch))
        .map((touch) => contacts(touch)[0])
        .sort(),
    )
    .reduce((least, one) => (one.length < least.length ? one : least));
  return late.length ? `${late.join(" and ")} not made yet` : "a contact landing late";
}

function crossed(pairs) {
  const sorted = pairs.sort(
    ([plug, jack], [otherPlug, otherJack]) => order(plug, otherPlug) || order(jack, otherJack),
  );
  return [...new Set(sorted.map(([plug]) => plug))]
    .map(
      (plug) =>
        `the plug's ${plug} on the jack's ${sorted
          .filter(([other]) => other === plug)
          .map(([, jack]) => jack)
          .join(" and ")}`,
    )
    .join(" and ");
}

const order = (one, two) => (one < two ? -1 : Number(one > two));

/* What a contact carries, put on its picture or its row: the pattern of its lines, and the word at its place. */

const LEADING = 1.25,
  DROP = 0.36; // as contacts.py sets them

export function worn(one, kind, words, looks) {
  const lines = [...one.querySelectorAll("[class^=rf-role]")]; // edge and pattern by turns
  lines.forEach((line, place) => wear(line, kind !== "nothing" && place % 2 === 0 ? "edge" : kind, looks));
  if (one.dataset.slot) {
    write(one, words);
    const title = one.querySelector("title");
    if (title) title.textContent = `contact ${one.dataset.contact}${words ? ` (${words})` : ""}`;
  } else one.querySelector("span").textContent = words || "nothing";
}

const PAINT = ["stroke", "stroke-width", "stroke-dasharray", "stroke-opacity", "fill"];

function wear(line, kind, looks) {
  line.setAttribute("class", `rf-role-${kind}`);
  for (const name of PAINT) {
    if (looks[kind][name]) line.setAttribute(name, looks[kind][name]);
    else line.removeAttribute(name);
  }
}

function write(group, words) {
  const [x, y, anchor, size, room] = group.dataset.slot
    .split(" ")
    .map((value) => (Number.isNaN(Number(value)) ? value : Number(value)));
  group.querySelectorAll(".rf-word").forEach((old) => old.remove());
  const line = () => group.appendChild(document.createElementNS("http://www.w3.org/2000/svg", "text"));
  const made = [];
  for (const word of words.split(" ").filter(Boolean)) {
    const last = made[made.length - 1],
      before = last ? last.textContent : "";
    if (last) last.textContent = `${before} ${word}`;
    if (!last || last.getComputedTextLength() > room) {
      if (last) last.textContent = before;
      made.push(line());
      Object.entries({
        class: "rf-word",
        x,
        "font-size": size,
        "text-anchor": anchor,
        fill: "currentColor",
      }).forEach(([name, value]) => made[made.length - 1].setAttribute(name, value));
      made[made.length - 1].textContent = word;
    }
  }
  const top = y - ((made.length - 1) * size * LEADING) / 2 + size * DROP;
  made.forEach((text, place) => text.setAttribute("y", top + place * size * LEADING));
}

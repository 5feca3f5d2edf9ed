/* What the nets of a working are called: in words a person with a meter knows. The twin of nets.py. */

const CONTACT = / (\S+(?: and \S+)*) \((.+)\)$/; // the end of a node's name: "Mixer line input 2 (hot)"

/* The working with its nets renamed, everywhere they are named. Words that two nets would share are left. */
export function netsInWords(working) {
  const said = working.nets.map(spoken),
    words = new Map(
      working.nets.map((net, i) => [
        net.name,
        said.filter((one) => one === said[i]).length === 1 ? said[i] : net.name,
      ]),
    );
  const word = (name) => words.get(name) || name,
    { equation } = working;
  return {
    ...working,
    nets: working.nets.map((net) => ({ ...net, name: word(net.name) })),
    parts: working.parts.map((part) => ({ ...part, a: word(part.a), b: word(part.b) })),
    equation: equation && {
      ...equation,
      net: word(equation.net),
      says: [" sum", ", so"].reduce(
        (says, end) => says.replace(` at ${equation.net}${end}`, () => ` at ${word(equation.net)}${end}`),
        equation.says,
      ),
    },
  };
}

function spoken({ name, nodes }) {
  const [first, ...rest] = name.split(", ");
  return [
    first
      .split(" = ")
      .map((part) => one(part, nodes))
      .join(" and "),
    ...rest,
  ].join(", ");
}

/* A name of its own, with the contact where all devices that carry it have it on the same one. */
function one(name, nodes) {
  if (name === "chassis") return "ground";
  const found = new Set(
    nodes
      .map((node) => CONTACT.exec(node))
      .filter((match) => match && match[2] === name)
      .map((match) => match[1]),
  );
  if (found.size !== 1) return name;
  const [contact] = found;
  if (contact.includes(" and ")) return `${name}, contacts ${contact}`;
  return /^\d/.test(contact)
    ? `${name}, contact ${contact}`
    : contact === name
      ? name
      : `${name}, ${contact}`;
}

"use strict";
window.Ringfence = window.Ringfence || {};
Ringfence.engine = Ringfence.engine || {};

/* What people call the nets and parts of a connection. The twin of naming.py; `places` is the Map of an assembly. */
(function (engine) {
  const WORD = { from: "outlet", into: "inlet", extra1: "spare end", extra2: "second spare end" };
  const NOUN = { resistor: "resistor", capacitor: "capacitor", inductor: "winding", sink: "current draw", clamp: "clamp" };
  const KNOWN = ["resistor", "capacitor", "capacitance", "conductor", "winding", "coil", "ribbon", "source", "clamp", "phantom", "power", "capsule"];

  /* A node or id at its first mark: [place, the rest]. */
  const split = (text, mark = "/") => (text.includes(mark) ? [text.slice(0, text.indexOf(mark)), text.slice(text.indexOf(mark) + 1)] : [text, ""]);
  engine.splitId = split;

  /* `Mixer line output`; with its side where two places share a name. */
  engine.owner = function (places, place) {
    const name = engine.short(places.get(place)), alike = [...places].some(([other, record]) => other !== place && engine.short(record) === name);
    return alike ? `${name} ${engine.SIDES[place] || place}` : name;
  };

  const innerName = (node) => node.replace(/^main\./, "").replaceAll("-", " ").replaceAll(".", " ");
  const isEnd = (lead, end) => Object.hasOwn(lead.ends, end);

  /* A node in full: `Mixer line output 2 (hot)`, `rail inside Mixer line output`. */
  engine.contactName = function (places, node) {
    const [place, inner] = split(node), record = places.get(place), whose = engine.owner(places, place);
    if (inner === "chassis") return `chassis of ${whose}`;
    if (!engine.isPort(record)) {
      const [end, contact] = split(inner, ".");
      return isEnd(record, end) && contact ? `${record.ends[end].label} ${contact}` : `${innerName(inner)} inside ${whose}`;
    }
    const contacts = Object.keys(record.contacts).filter((contact) => record.contacts[contact] === inner);
    if (contacts.length) return `${whose} ${contacts.join(" and ")} (${inner})`;
    return inner.startsWith("open.") ? `${whose} ${inner.slice(5)} (nothing known)` : `${innerName(inner)} inside ${whose}`;
  };

  /* A short name for each net, no two alike: what the ports call it, else what it is inside. `nets` is a Map of net -> nodes. */
  engine.netLabels = function (places, nets) {
    const found = new Map([...nets].map(([net, nodes]) => [net, labelOf(places, nodes)])), all = [...found.values()];
    for (const label of new Set(all.filter((one) => all.indexOf(one) !== all.lastIndexOf(one)))) {
      for (const [net, other] of found) {
        const [first] = nets.get(net);
        if (other === label && first) found.set(net, `${label}, ${WORD[split(first)[0]] || "lead"}`);
      }
    }
    const seen = new Map();
    for (const [net, label] of found) {
      seen.set(label, (seen.get(label) || 0) + 1);
      if (seen.get(label) > 1) found.set(net, `${label} ${seen.get(label)}`);
    }
    return found;
  };

  function labelOf(places, nodes) {
    const roles = rolesOf(places, nodes);
    if (nodes.some((node) => node.endsWith("/chassis"))) return ["chassis", ...roles.filter((role) => !["screen", "common", "return"].includes(role))].join(" = ");
    if (roles.length) return roles.join(" = ");
    if (!nodes.length) return "contact";
    const node = nodes.find((one) => engine.isPort(places.get(split(one)[0]))) || nodes[0], [place, name] = split(node), record = places.get(place);
    if (!engine.isPort(record)) {
      const [end, contact] = split(name, ".");
      return isEnd(record, end) && contact ? engine.contactName(places, node) : innerName(name);
    }
    return name.startsWith("open.") ? `no role ${name.slice(5)}` : innerName(name);
  }

  /* What the contacts of the ports carry, each role once. */
  function rolesOf(places, nodes) {
    const pairs = nodes.map((node) => split(node)), carried = (place, name) => engine.isPort(places.get(place)) && Object.values(places.get(place).contacts).includes(name);
    return [...new Set(pairs.filter(([place, name]) => carried(place, name)).map(([, name]) => name))];
  }

  /* A part in words: `input capacitor of the hot leg`, `phantom 48 V`, `feed hot`. `listening` is what the meter is called. */
  engine.elementName = function (places, part, id, listening) {
    if (id === "meter") return listening;
    if (id === engine.EARTHS) return "difference between the chassis";
    if (!part) return "contact";
    if (id.endsWith(engine.CONTACT)) return "closing contact";
    const [place, inner] = split(id), record = places.get(place), port = engine.isPort(record), own = port || record.parts.includes(inner);
    const named = engine.partName(record, inner);
    if (named && (own || part.kind !== "resistor")) return named;
    if (part.supply) return record.supplies.find((supply) => supply.id === part.supply).name;
    if (!own) return part.kind === "capacitor" ? "cable capacitance" : `conductor ${innerName(inner.replace(/^cable\./, "").split(".")[0])}`;
    if (part.coil) return part.coil;
    const driving = port ? record.sources.filter((source) => Object.hasOwn(source.drive, inner)) : [];
    if (driving.length && part.kind === "emf") return record.sources.length === 1 ? "signal source" : `signal source ${driving[0].channel}`;
    return innerName(inner);
  };

  /* A part's name in a sentence: `feed hot resistor`; a name that says what it is stays. */
  engine.inWords = (name, kind) => (NOUN[kind] && !KNOWN.some((noun) => name.includes(noun)) ? `${name} ${NOUN[kind]}` : name);

  /* Ids of the parts that are wire of a lead and nothing else. */
  engine.conductors = (places) => new Set([...places].filter(([, record]) => !engine.isPort(record)).flatMap(([place, lead]) =>
    lead.network.parts.filter((part) => part.kind === "resistor" && !lead.parts.includes(part.id)).map((part) => `${place}/${part.id}`)));
})(Ringfence.engine);

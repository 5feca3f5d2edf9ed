/* In a worker: a lead comes in, its dictionary goes out. A page that may start no worker takes the same steps itself. */

import { dictionary } from "./dictionary.js";

if (typeof document === "undefined" && typeof self !== "undefined")
  self.onmessage = ({ data: { lead, contacts, tables } }) => {
    const steps = dictionary(lead, contacts, tables);
    let step = steps.next();
    while (!step.done) step = steps.next();
    self.postMessage(step.value);
  };

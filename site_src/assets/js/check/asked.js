/* What a question is about: its records in order, and their names as a chain. */

import { lead, port } from "../ui/catalogue.js";

export const asked = ({ from, through, into }) => [port(from), ...through.map(lead), port(into)];
export const names = (question) =>
  asked(question)
    .map(({ name }) => name)
    .join(" → ");

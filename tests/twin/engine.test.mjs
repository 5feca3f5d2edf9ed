/* Holds the scripts' engine to a file of questions and answers (contract.py): node --test tests/twin/engine.test.mjs,
with FIXTURE naming the file and TOLD the one to write into how far apart the two were. */
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import process from "node:process";
import { after, test } from "node:test";
import vm from "node:vm";
import { differences, gaveUp, settleTies } from "./agree.mjs";

const fixture = process.env.FIXTURE;
const folder = path.dirname(fixture);
const { cases, within } = JSON.parse(readFileSync(fixture, "utf8"));
const given = JSON.parse(readFileSync(path.join(folder, "given.json"), "utf8"));
globalThis.window = globalThis;
globalThis.Ringfence = { powering: given.powering };
vm.runInThisContext(readFileSync(path.join(folder, "engine.js"), "utf8"));

const told = { compared: 0, refused: 0, tied: 0, worst: {} };
const judge = (asked) => Ringfence.engine.judge(given.data, given.rulebook, asked);

for (const { asked, says, raises } of cases) {
  test([asked.from, ...asked.through, asked.into].join(" > "), () => {
    told.compared += 1;
    if (raises) {
      assert.throws(() => judge(asked), raises);
      return;
    }
    const answer = JSON.parse(JSON.stringify(judge(asked))); // as the page hands it on
    if (gaveUp(answer) && !gaveUp(says)) {
      told.refused += 1; // on the careful side
      return;
    }
    told.tied += settleTies(says, answer, within);
    const apart = differences(says, answer, within, told.worst);
    assert.ok(!apart.length, apart.slice(0, 30).join("\n"));
  });
}

after(() => writeFileSync(process.env.TOLD, JSON.stringify(told)));

/* The comparison can fail, and does not where rounding is all there is. */
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import process from "node:process";
import { test } from "node:test";
import { differences, gaveUp, settleTies } from "./agree.mjs";

const { within } = JSON.parse(readFileSync(process.env.FIXTURE, "utf8"));

const DIFFERENT = [
  [{ verdict: "safe" }, { verdict: "lossy" }, '.verdict: Python has "safe", the scripts "lossy"'],
  [{ findings: [{ id: "dull" }] }, { findings: [] }, ".findings: Python has 1 (dull), the scripts 0 ()"],
  [
    { value: 1, unit: "V" },
    { value: 1.000001, unit: "V" },
    ".value: Python has 1 V, the scripts 1.000001 V, ",
  ],
  [{ value: 0, unit: "V" }, { value: 6e-7, unit: "V" }, ".value: Python has 0 V, the scripts 6e-7 V, "],
  [{ value: 0, unit: "A" }, { value: 2e-10, unit: "A" }, ".value: Python has 0 A, the scripts 2e-10 A, "],
  [
    { value: 40, unit: "dB" },
    { value: 40.00001, unit: "dB" },
    ".value: Python has 40 dB, the scripts 40.00001 dB, ",
  ],
  [{ value: 0.1 }, { value: null }, ".value: Python has 0.1, the scripts null"],
  [{ fits: true }, { fits: 1 }, ".fits: Python has true, the scripts 1"],
  [{ says: "x" }, {}, '.says: only in Python: "x"'],
  [{}, { says: "x" }, '.says: only in the scripts: "x"'],
  [{ limit: { value: 5 } }, { limit: [5] }, '.limit: Python has {"value":5}, the scripts [5]'],
];
for (const [own, other, said] of DIFFERENT)
  test(`a difference is seen: ${said}`, () => {
    const found = differences(own, other, within);
    assert.equal(found.length, 1);
    assert.ok(found[0].startsWith(said), found[0]);
  });

const ALIKE = [
  [
    { value: 48, unit: "V" },
    { value: 48 + 1e-9, unit: "V" },
  ],
  [
    { value: -60, unit: "dB" },
    { value: -60 + 1e-9, unit: "dB" },
  ],
  [
    { value: -130, unit: "dB" },
    { value: -150, unit: "dB" },
  ],
];
for (const [own, other] of ALIKE)
  test(`rounding is not a difference: ${own.value} ${own.unit}`, () => {
    const worst = {};
    assert.deepEqual(differences(own, other, within, worst), []);
    assert.ok(own.unit === "dB" || worst.V[0] > 0);
  });

test("capacitors that are equally slow are one answer, and others are not", () => {
  const wait = (where, value) => ({ findings: [{ id: "wait-for-capacitors", where, says: where, value }] });
  const other = wait("b", 2);
  assert.equal(settleTies(wait("a", 2), other, within), 1);
  assert.deepEqual(differences(wait("a", 2), other, within), []);
  assert.equal(settleTies(wait("a", 2), wait("b", 2.1), within), 0);
});

test("only what is called dangerous for want of a solution is given up on", () => {
  assert.ok(gaveUp({ verdict: "dangerous", findings: [{ id: "not-solved" }] }));
  assert.ok(!gaveUp({ verdict: "dangerous", findings: [{ id: "not-solved" }, { id: "over-volts" }] }));
  assert.ok(!gaveUp({ verdict: "safe", findings: [] }));
});

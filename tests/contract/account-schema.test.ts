/** The account's published schema: every account is valid against it, and every field says what it is. */
import { describe, expect, it } from "vitest";
import { accountJsonSchema } from "../../src/export/index.ts";
import { demoAccount, demoClass } from "../demo-class.ts";
import { closed, descriptionOf, fieldsOf, isNumber, UNIT, validatorOf } from "./published.ts";

const schema = accountJsonSchema();
const published = validatorOf(schema);
const nothingElse = validatorOf(closed(schema));

describe("the account of every demo take", () => {
  it.each(demoClass.takes.map((take) => [take.id, take] as const))("%s is as published", (_, take) => {
    const account: unknown = JSON.parse(JSON.stringify(demoAccount(take)));
    expect(published(account)).toBeNull();
    expect(nothingElse(account), "a field that the schema does not declare").toBeNull();
  });

  it("is refused when a field is missing or out of its range", () => {
    const account = JSON.parse(JSON.stringify(demoAccount(demoClass.takes[0]!)));
    account.notes[0].pitch = 128;
    expect(published(account)).toMatch(/pitch.*<= 127/);
    delete account.alignment;
    expect(published(account)).toMatch(/alignment/);
  });
});

describe("every field of the account", () => {
  const fields = fieldsOf(schema);

  it("is described: give it `.describe(...)` beside its type", () => {
    expect(fields.length).toBeGreaterThan(250);
    expect(
      fields.filter((field) => descriptionOf(schema, field.schema) === "").map(({ path }) => path),
    ).toEqual([]);
  });

  it("says its unit where it is a number: seconds, beats, semitones, MIDI number, share, number of ...", () => {
    const numbers = fields.filter(({ schema: one }) => isNumber(one));
    expect(numbers.length).toBeGreaterThan(100);
    const told = numbers.map((field) => `${field.path}: ${descriptionOf(schema, field.schema)}`);
    expect(told.filter((one) => !UNIT.test(one.split(": ")[1]!))).toEqual([]);
  });
});

import { describe, expect, it } from "vitest";
import { printMoney } from "./money.ts";

/** Where the platform's data (CLDR, which follows what circulates) has fewer places than the standard's list has. */
const CIRCULATES = new Set("AFN ALL COP HUF IDR IQD IRR KPW LAK LBP MGA MMK PKR SLL SOS SYP YER".split(" "));

describe("printed money", () => {
  it("has as many places as the platform knows for every currency in use", () => {
    for (const code of Intl.supportedValuesOf("currency")) {
      if (CIRCULATES.has(code)) continue;
      const format = new Intl.NumberFormat("en", { style: "currency", currency: code });
      const places = format.resolvedOptions().maximumFractionDigits ?? 2;
      const printed = printMoney(123_456, code);
      expect(printed, code).toBe(`${(123_456 / 10 ** places).toFixed(places)} ${code}`);
    }
  });

  it("keeps every minor unit", () => {
    expect(printMoney(0, "USD")).toBe("0.00 USD");
    expect(printMoney(5, "EUR")).toBe("0.05 EUR");
    expect(printMoney(-1250, "USD")).toBe("-12.50 USD");
    expect(printMoney(1_000_000_000, "USD")).toBe("10000000.00 USD");
    expect(printMoney(1999, "")).toBe("19.99");
  });

  it("refuses half a cent", () => {
    expect(() => printMoney(0.5, "USD")).toThrow("0.5");
  });
});

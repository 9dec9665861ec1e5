// Numbers as people type and read them.

const language = globalThis.document?.documentElement.lang || "en";
const format = new Intl.NumberFormat(language, { maximumFractionDigits: 2, useGrouping: false });

/** Write a number without trailing zeros, at most two decimals. */
export const shown = (value) => format.format(value);

/** Read a typed number; a comma is a decimal sign. null: nothing typed; NaN: not a number. */
export function parse(text) {
  const plain = text.replace(/[\s\u00a0]/g, "").replace(",", ".");
  if (!plain) return null;
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : NaN;
}

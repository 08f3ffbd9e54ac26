/** The language and number formats that words and figures are written in. English for now; formats follow it. */
export const locale = 'en-GB';

const rules = new Intl.PluralRules(locale);
const whole = new Intl.NumberFormat(locale, { maximumFractionDigits: 0 });

/** Words for a count, by the plural rules of the language. `#` stands for the number. */
export function plural(n: number, forms: { one: string; other: string }): string {
  return (rules.select(n) === 'one' ? forms.one : forms.other).replace('#', whole.format(n));
}

/** A list in words: "a, b and c". */
export function listed(items: readonly string[]): string {
  return new Intl.ListFormat(locale, { style: 'long', type: 'conjunction' }).format(items);
}

/** A file size for people, in decimal units as disks are sold. */
export function fileSize(bytes: number): string {
  const units = ['byte', 'kilobyte', 'megabyte', 'gigabyte', 'terabyte'] as const;
  const step = Math.min(units.length - 1, Math.max(0, Math.floor(Math.log10(Math.max(1, bytes)) / 3)));
  return new Intl.NumberFormat(locale, {
    style: 'unit',
    unit: units[step] ?? 'byte',
    unitDisplay: step === 0 ? 'long' : 'short',
    maximumFractionDigits: step < 2 ? 0 : 1,
  }).format(bytes / 1000 ** step);
}

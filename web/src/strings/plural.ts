// Words that go with a number: count(2, { one: "# ride", other: "# rides" }) by the plural rules of the language.
export function plurals(locale: string) {
  const rules = new Intl.PluralRules(locale);
  return (count: number, forms: Partial<Record<Intl.LDMLPluralRule, string>> & { other: string }): string =>
    (forms[rules.select(count)] ?? forms.other).replace("#", count.toLocaleString(locale));
}

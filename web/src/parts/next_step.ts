// The program says a next step in the words of its command line; here the page's own places stand for them.
const k_places: [RegExp, string][] = [
  [/:? undercroft label (\S+?)([.;]|$)/g, ' (Shelf, $1, its label)$2'],
  [/,? then: undercroft acknowledge (\S+) "[^"]*"([.;]|$)/g, ', then acknowledge it (Shelf, $1)$2'],
  [/: undercroft acknowledge (\S+) "[^"]*"([.;]|$)/g, ', acknowledge it (Shelf, $1)$2'],
  [/undercroft help lists them all\.?/g, ''],
];

export function pageStep(text: string): string {
  let said = text;
  for (const [pattern, place] of k_places) said = said.replace(pattern, place);
  said = said.trim();
  // What is left of it is no place of the page.
  return /(^|\s)--\w|undercroft \w/.test(said) ? `In the words of the command line: ${said}` : said;
}

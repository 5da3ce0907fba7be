// A round of blind glasses as it is typed on a phone: kept on the device until it is booked, so that nothing is lost.

export interface Scored {
  scores: Record<string, string>; // by attribute
  fault: string;
  words: string;
}
export interface Round {
  subjects: string[]; // "#1"
  tasters: string; // with commas
  twice: string[];
  set: string; // empty: not laid out yet
  full: boolean;
  found: Record<string, Scored>; // by taster and code, "Ines 417"
}
interface Sheet {
  taster: string;
  codes: string[];
}

export const k_untouched: Scored = { scores: {}, fault: '', words: '' };
const k_none: Round = { subjects: [], tasters: '', twice: [], set: '', full: false, found: {} };

const said = (one: Scored | undefined) => Object.entries(one?.scores ?? {}).filter(([, score]) => score !== '');

// Every glass has a score or a fault.
export function isComplete(round: Round, sheet: Sheet): boolean {
  return sheet.codes.every((code) => {
    const one = round.found[`${sheet.taster} ${code}`];
    return said(one).length > 0 || !!one?.fault;
  });
}

// "Ines 417 sourness=6 fault=mousy lemon", as the program reads what was found.
export function foundLines(round: Round, sheets: Sheet[]): string[] {
  return sheets.flatMap((sheet) =>
    sheet.codes.map((code) => {
      const one = round.found[`${sheet.taster} ${code}`] ?? k_untouched;
      const parts = [sheet.taster, code, ...said(one).map(([attribute, score]) => `${attribute}=${score}`)];
      if (one.fault) parts.push(`fault=${one.fault}`);
      const words = one.words.replaceAll('=', ' ').trim(); // an equals sign would be read as a score
      if (words) parts.push(words);
      return parts.join(' ');
    }),
  );
}

export function keptRound(cellar: string) {
  const key = `undercroft blind ${cellar}`;
  return {
    none: (): Round => ({ ...k_none, found: {} }),
    read(): Round {
      try {
        return { ...k_none, ...JSON.parse(localStorage.getItem(key) ?? '{}') };
      } catch {
        return { ...k_none };
      }
    },
    write(round: Round) {
      try {
        localStorage.setItem(key, JSON.stringify(round));
      } catch {
        // A full or forbidden store: the round lives as long as the page.
      }
    },
  };
}

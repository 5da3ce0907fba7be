// Glasses as they are poured and as they are told: "40 mL Sharp, 60 mL Soft: 6.5".
interface Pour {
  stock: string;
  ml: number;
}

export function poursText(pours: Pour[]): string {
  return pours.map((p) => `${p.ml.toFixed(0)} mL ${p.stock}`).join(', ');
}

// A decimal comma is a decimal point here: a comma parts the pours.
export function likedText(pours: Pour[], liking: string): string {
  return `${poursText(pours)}: ${liking.trim().replace(',', '.')}`;
}

// What a quantity is called, everywhere on the page.

const k_names: Record<string, string> = {
  gravity: 'gravity',
  ph: 'pH',
  ta: 'titratable acidity',
  alcohol: 'alcohol',
  ibu: 'bitterness',
  colour: 'colour',
  temperature: 'temperature',
  dissolved_co2: 'dissolved CO2',
  weight: 'weight',
};

export function quantityName(quantity: string): string {
  return k_names[quantity] ?? quantity.replaceAll('_', ' ');
}

const k_provenance: Record<string, string> = {
  read: 'read',
  mixed: 'mixed: by volume from its parts',
  computed: 'worked out',
  stated: 'stated by hand',
  forecast: 'forecast',
  assumed: 'assumed',
};

export function provenanceWords(provenance: string): string {
  return k_provenance[provenance] ?? provenance;
}

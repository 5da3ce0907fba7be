// What every form of an act is given.
import type { Act, CellarAnswer, Tables } from '../api/types';

export interface FormProps<A extends Act = Act> {
  act: A; // bindable: what was typed
  cellar: CellarAnswer;
  tables: Tables | null;
  // What the program said against a field of this act ("volume", "to[0].volume"); empty when nothing.
  faultOf: (field: string) => string;
  onchange: () => void;
  first: boolean; // the form that was opened last: its first field takes the focus
}

// The acts of this file's forms, as they are typed.
export interface MoveAct extends Act {
  reason: string;
  from: string;
  to: { vessel: string; volume: string }[];
  loss?: string;
  to_full?: boolean;
  acknowledge?: string; // why it moves although a fault stands against it
}

export interface LotAct extends Act {
  reason: string;
  vessel: string;
  name: string;
  volume: string;
  to_full?: boolean;
  kind?: string;
  brewed?: string;
  age_assumed?: boolean;
  original_gravity?: string;
  gravity?: string;
  alcohol?: string;
  ibu?: string;
  colour?: string;
  ph?: string;
  ta?: string;
  allergens?: string[];
  cultures?: string[];
}
